package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// declarations are an author's words and what they are read as: "?" is behind what only may
// be in it, "!" behind what is not understood. Each row that is read was nothing once.
const declarations = `
milk = milk
tree nuts = tree nuts
hazelnuts = hazelnuts
crab = crab
milk and nuts = milk, nuts
milk & nuts / celery = milk, nuts, celery
may contain nuts = nuts?
May contain traces of nuts = nuts?
nuts (traces) = nuts?
nuts (may contain) = nuts?
nuts (possible traces) = nuts?
traces of nuts and sesame = nuts?, sesame?
traces of nuts = nuts?
nuts traces = nuts?
contains milk = milk
milk (in the glaze) = milk | in the glaze
milk (and nuts) = milk, nuts
milk (the glaze is made with almonds) = milk, almond | the glaze is made with almonds
nuts (hazelnuts, almonds) = nuts, hazelnuts, almonds
sulphur dioxide and sulphites = sulphur dioxide and sulphites
treenuts = treenuts!
shelfish = shelfish!
milk and nutz = milk, nutz!
no nuts = no nuts!
nut free = nut free!
vegan = vegan!
nut allergy = nut allergy!
nothing = nothing!
may contain = !
`

func TestWhatAnAuthorDeclaresIsReadWhole(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(declarations)) {
		text, want, ok := strings.Cut(strings.TrimSpace(line), " = ")
		require.True(t, ok, line)
		said, note := (*Foods)(nil).Declare(text)
		var got []string
		for _, d := range said {
			word := d.Words
			if d.May && d.Known() {
				word += "?"
			}
			if !d.Known() {
				word += "!"
			}
			got = append(got, word)
		}
		all := strings.Join(got, ", ")
		if note != "" {
			all += " | " + note
		}
		assert.Equal(t, want, all, text)
	}
}

// declared are words of an author, a guest's words, and what follows: "!" a clash, "?" may
// be one, "-" none, "." not assessed. Each row but those with "-" passed as none once.
const declaredClashes = `
hazelnuts: nut allergy !
hazelnuts: no tree nuts !
hazelnuts: no hazelnuts !
hazelnuts: no walnuts -
nuts: no walnuts ?
nuts: nut allergy !
may contain nuts: nut allergy ?
may contain hazelnuts: no nuts ?
crab: no shellfish !
crab: no crustaceans !
crab: no fish -
crustaceans: no crab ?
milk: no parmesan ?
milk: vegan !
milk: vegetarian -
pork: vegetarian !
pork: no pork !
pork: no beef -
meat: no pork ?
egg: raw egg ?
fish: raw fish ?
honey: vegan !
flour: coeliac !
wheat: no gluten !
shelfish: no shellfish .
no nuts: nut allergy .
`

func TestDeclaredThingsAgainstGuestsWords(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(declaredClashes)) {
		text, rest, _ := strings.Cut(strings.TrimSpace(line), ": ")
		words, want := rest[:len(rest)-2], rest[len(rest)-1:]
		a, ok := Understand(words)
		require.True(t, ok, words)
		said, _ := (*Foods)(nil).Declare(text)
		var v Verdict
		for _, d := range said {
			of := a.OfDeclared(d, nil)
			v.Sure, v.May, v.Unknown = v.Sure || of.Sure, v.May || of.May, v.Unknown || of.Unknown
		}
		got := "-"
		switch {
		case v.Sure:
			got = "!"
		case v.May:
			got = "?"
		case v.Unknown:
			got = "."
		}
		assert.Equal(t, want, got, line)
	}
}

// What an author declares reaches every guest who avoids the same words, however it is
// written: surely, as what may be, or as not understood.
func TestDeclaredWordsReachWhoAvoidsThem(t *testing.T) {
	var all []string
	for _, w := range (*Foods)(nil).EverydayWords() {
		if a, _ := Understand(w); !a.diet {
			all = append(all, w)
		}
	}
	for i := range foods {
		all = append(all, foods[i].Name)
	}
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.SampledFrom(all).Draw(t, "word")
		other := rapid.SampledFrom(all).Draw(t, "other")
		shape := rapid.SampledFrom([]string{"%", "may contain %", "% (traces)", "traces of %", "% and @", "@ & %", "@ (and %)", "@ (%)", "%s", "% (in the glaze)", "may contain @ and %"}).Draw(t, "shape")
		said, _ := (*Foods)(nil).Declare(strings.NewReplacer("%", word, "@", other).Replace(shape))
		a, ok := Understand(word)
		if !ok {
			t.Fatal(word)
		}
		for _, d := range said {
			if v := a.OfDeclared(d, nil); v.Sure || v.May || v.Unknown {
				return
			}
		}
		t.Fatalf("%q does not reach a guest who avoids %q: %+v", shape, word, said)
	})
}

// asides are lines of ingredients, name | preparation, and what they say beside the name.
// The first group said nothing once; the second names foods that are not in it.
const asides = `
oat milk (with almonds) | = almond
chocolate | chopped, may contain hazelnuts = hazelnut?
rice | with almonds = almond
rice (cooked in butter) | = butter
breadcrumbs | fried in butter = butter
cod | beer-battered = beer, batter
cod fillets | poached in milk = milk
noodles | tossed with sesame oil and peanuts = sesame oil, peanut
stock | fish = fish stock
oil | sesame = sesame oil
flour | rye = rye flour
mushrooms | oyster = oyster mushroom
tomatoes | beef = beef tomato
nuts | mixed, roasted in honey = mixed nut, honey
greens | contains celery = celery
prawns | or cod = cod?
beans | buttered = butter
rice | (traces of peanuts) = peanut?
rice [with almonds] | = almond
leeks | braised in white wine = white wine
chicken | in satay marinade = satay, marinade!
pork | in its sauce = sauce!
rice | made in a kitchen that handles nuts = nut?
beef | in soy sauce = soy sauce
pepper | walnut = walnut?
celeriac | for frying in butter = butter?

bread | cut with a bread knife =
butter | unsalted, cut in cubes = unsalted butter
dough | the size of a walnut, egg-sized pieces =
carrots | brushed with a pastry brush =
cauliflower | cut in steaks =
kale | ribs removed =
mushrooms | toast =
onions | chop, mince, roast =
oat milk (nut-free) | =
oat milk | without almonds =
rice | not fried in butter, no nuts =
beef | on the bone =
cake | gluten free =
apples | peeled, cored, in wedges =
`

func TestAsidesOfALineAreRead(t *testing.T) {
	for line := range strings.Lines(strings.TrimSpace(asides)) {
		line = strings.TrimRight(line, "\n")
		if line == "" {
			continue
		}
		left, want, ok := strings.Cut(line, "=")
		require.True(t, ok, line)
		item, prep, _ := strings.Cut(left, "|")
		var got []string
		for _, d := range (*Foods)(nil).Asides(strings.TrimSpace(item), strings.TrimSpace(prep)) {
			word := d.Words
			switch {
			case !d.Known():
				word += "!"
			case d.May:
				word += "?"
			}
			got = append(got, word)
		}
		assert.Equal(t, strings.TrimSpace(want), strings.Join(got, ", "), line)
	}
}

// A food that a line names behind "with" reaches every guest who avoids it.
func TestAsidesReachWhoAvoidsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		food := foods[rapid.IntRange(0, len(foods)-1).Draw(t, "food")].Name
		shape := rapid.SampledFrom([]string{"with %", "fried in %", "chopped, with %", "may contain %", "with moonflower and %", "(with %)", "made with %, hot"}).Draw(t, "shape")
		if tools[food] || parts[food] {
			return
		}
		a, _ := Understand(food)
		for _, d := range (*Foods)(nil).Asides("moonflower", strings.ReplaceAll(shape, "%", food)) {
			if v := a.OfDeclared(d, nil); v.Sure || v.May {
				return
			}
		}
		t.Fatalf("%q is not seen in %q", food, shape)
	})
}

// FuzzDeclare reads any text as an author's "contains" and as what is beside an
// item's name. Each thing is understood and avoided by a guest who says its words, or it
// is not understood.
func FuzzDeclare(f *testing.F) {
	for _, s := range []string{"may contain nuts (traces)", "milk (and nuts)", "İ may contain", "((", ")(", "with \xff butter", "traces", "contains contains", "a (b (c)) d", "oat milk, with almonds"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		said, _ := (*Foods)(nil).Declare(text)
		require.NotEmpty(t, said, text)
		for _, d := range append(said, (*Foods)(nil).Asides(text, text)...) {
			if !d.Known() {
				continue
			}
			a, ok := Understand(d.Words)
			require.True(t, ok, d.Words)
			v := a.OfDeclared(d, nil)
			require.True(t, v.Sure && !d.May || v.May, "%q of %q", d.Words, text)
		}
	})
}
