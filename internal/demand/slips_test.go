package demand

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/library"
	"hobside/internal/quantity"
)

// A bench is the demo's files, with what they show before any slip.
type bench struct {
	in    Input
	set   library.Set
	names []string          // of the cards
	texts map[string]string // by name
	known map[string][]string
	shown map[string]string
	list  string
}

// newBench compiles the demo.
func newBench(t testing.TB) *bench {
	t.Helper()
	b := &bench{in: demo(t), set: library.Set{}, texts: map[string]string{}, known: map[string][]string{}, shown: map[string]string{}}
	files, err := filepath.Glob("../../content/cards/*.md")
	require.NoError(t, err)
	for _, file := range append(files, "../../content/boathouse-supper.md", "../../content/boathouse-kitchen.md") {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		name := filepath.Base(file)
		b.set[name] = library.Compile(name, string(text))
		b.texts[name] = string(text)
		if b.set[name].Card != nil {
			b.names = append(b.names, name)
		}
	}
	for _, name := range b.names {
		b.known[name] = b.problems(b.set[name])
		b.shown[name] = page(b.set[name].Card)
	}
	b.list = b.dinner(nil)
	return b
}

// problems returns every problem of a file in its library.
func (b *bench) problems(f *library.File) []string {
	var out []string
	for _, p := range append(append([]document.Problem{}, f.Problems...), b.set.CheckFile(f)...) {
		out = append(out, p.Msg)
	}
	return out
}

// page returns a card as its page shows it, made once and made 7/3 times.
func page(c *card.Card) string {
	show := quantity.Prefs{Scale: quantity.Frac(1, 10)}
	return card.HTML(c.Scale(quantity.Int(1), 0, show)) + card.HTML(c.Scale(quantity.Frac(7, 3), 0, show))
}

// dinner returns the batches and the order list of the demo dinner with a card in
// place of its own.
func (b *bench) dinner(c *card.Card) string {
	in := b.in
	if c != nil {
		in.Cards = maps.Clone(in.Cards)
		in.Cards[c.ID] = c
	}
	d, problems := Explode(in)
	var out strings.Builder
	for _, comp := range d.Components {
		fmt.Fprintln(&out, comp.Card.ID, comp.Made, comp.Need)
		for _, batch := range comp.Batches {
			fmt.Fprintln(&out, batch.Amount)
		}
	}
	for _, l := range Order(d, Shop{}) {
		fmt.Fprintln(&out, l.Name, l.Note, l.Need)
		for _, p := range l.Buy {
			fmt.Fprintln(&out, p.Amount, p.Packs, p.Pack)
		}
	}
	for _, p := range problems {
		fmt.Fprintln(&out, p.Error())
	}
	return out.String()
}

// An outcome is what became of a slip.
type outcome string

const (
	understood outcome = "understood"    // the card means what it meant
	found      outcome = "found"         // there is a problem that was not there
	shownValue outcome = "changed shown" // a value that is shown is another
	lost       outcome = "lost"          // none of these
)

// judge returns what became of a slip in a card, and for a lost one why.
func (b *bench) judge(name, text string) (o outcome, why string) {
	f := library.Compile(name, text)
	if f.Card == nil {
		return lost, "it is a card no more"
	}
	before := b.set[name].Card
	if len(b.problems(f)) > 0 && !reflect.DeepEqual(b.problems(f), b.known[name]) {
		return found, ""
	}
	if reflect.DeepEqual(meaning(before), meaning(f.Card)) {
		return understood, ""
	}
	have, had := parts(f.Card), parts(before)
	for _, part := range sortedKeys(had) {
		if have[part] < had[part] {
			return lost, part
		}
	}
	if page(f.Card) != b.shown[name] || b.dinner(f.Card) != b.list {
		return shownValue, ""
	}
	return lost, "no value that is shown is another"
}

// meaning returns a card without what depends on how its file is laid out.
func meaning(c *card.Card) card.Card {
	out := *c
	out.Source = nil
	out.Intro, out.Notes = strings.Join(strings.Fields(c.Intro), " "), strings.Join(strings.Fields(c.Notes), " ")
	out.Items = append([]card.Item{}, c.Items...)
	for i := range out.Items {
		out.Items[i].Pos = document.Pos{}
	}
	out.Steps = append([]card.Step{}, c.Steps...)
	for i := range out.Steps {
		out.Steps[i].Pos = document.Pos{}
		out.Steps[i].Order = append([]card.Order{}, out.Steps[i].Order...)
		for k := range out.Steps[i].Order {
			out.Steps[i].Order[k].Pos = document.Pos{}
		}
	}
	out.Saves = append([]card.ByProduct{}, c.Saves...)
	for i := range out.Saves {
		out.Saves[i].Pos = document.Pos{}
	}
	out.Ways = append([]card.Way{}, c.Ways...)
	for i := range out.Ways {
		out.Ways[i].Pos = document.Pos{}
	}
	return out
}

// parts counts the parts of a card. A part that is there no more, and no problem, was
// lost.
func parts(c *card.Card) map[string]int {
	n := map[string]int{}
	has := func(what string, yes bool) {
		if yes {
			n[what]++
		}
	}
	amount := func(what string, a quantity.Amount) { has(what, a.Unit != nil || a.ToTaste) }
	has("title", c.Title != "")
	has("introduction", c.Intro != "")
	has("notes", c.Notes != "")
	amount("makes", c.Makes)
	amount("formula", c.Weighs)
	amount("smallest", c.Smallest)
	amount("largest", c.Largest)
	amount("whole", c.Whole)
	amount("portion", c.Portion)
	amount("each", c.Each)
	has("margin", c.NoMargin || !c.Margin.IsZero())
	has("density", !c.Density.IsZero())
	has("top up", c.TopUp != "")
	n["keeps"] = len(c.Keeps)
	n["contains"] = len(c.Contains)
	n["without"] = len(c.Without)
	amount("spares", c.Spares.Amount)
	has("spares in percent", !c.Spares.Share.IsZero())
	has("tested", !c.Tested.Date.IsZero())
	amount("tested size", c.Tested.Size)
	n["words of tested"] = len(c.Tested.Words)
	n["apart"] = len(c.Apart)
	n["items"] = len(c.Items)
	n["ways"] = len(c.Ways)
	n["steps"] = len(c.Steps)
	n["saves"] = len(c.Saves)
	for _, it := range c.Items {
		has("amounts of items", it.Amount.Unit != nil || it.Amount.ToTaste || !it.Percent.IsZero())
		has("cards of items", it.Card != "")
		has("by-products of items", it.Save != "")
		has("optional items", it.Optional)
		has("mixes", it.Mix)
		has("items not eaten", it.Uneaten)
		has("fixed items", it.Fixed)
		has("trims", !it.Trim.IsZero())
		amount("each of items", it.Each)
		amount("packs", it.Pack)
		has("items in groups", it.Group != "")
	}
	for _, s := range c.Steps {
		stepParts(n, &s)
	}
	for _, s := range c.Saves {
		amount("amounts of by-products", s.Amount)
		n["keeps of by-products"] += len(s.Keeps)
	}
	return n
}

// stepParts counts the parts of a step.
func stepParts(n map[string]int, s *card.Step) {
	has := func(what string, yes bool) {
		if yes {
			n[what]++
		}
	}
	has("hands", !s.Hands.IsZero())
	has("wait", !s.Wait.IsZero())
	has("times that grow", s.Hands.Per.Unit != nil || s.Wait.Per.Unit != nil)
	has("load", s.Load.Unit != nil)
	has("until", s.Until.Words != "")
	_, degrees := document.Temperature(s.Until.Words)
	has("figures of until", s.Until.Amount.Unit != nil || degrees)
	has("until a core temperature", s.Until.HasCore)
	has("cool", s.Cool.Set)
	has("cool within", s.Cool.Within > 0)
	has("serve", s.Serve)
	has("unwatched", s.Unwatched)
	has("after", s.After.Start || s.After.Step > 0)
	n["keep"] += len(s.Keep)
	n["check"] += len(s.Check)
	n["caution"] += len(s.Caution)
	n["equipment"] += len(s.Equipment)
	has("vessel", s.Vessel.Name != "")
	has("count of vessels", s.Vessel.Count > 0)
	n["orders"] += len(s.Order)
	n["apart of steps"] += len(s.Apart)
	n["saves of steps"] += len(s.Saves)
	for _, c := range s.Check {
		has("critical limits", c.HasC)
	}
	for _, e := range s.Equipment {
		has("temperatures of equipment", e.HasTemp)
		has("counts of equipment", e.Count > 1)
		has("sizes of machines", e.Holds.Unit != nil)
		has("shares of machines", !e.Full.IsZero())
	}
	for _, r := range s.Text {
		has("items in steps", r.Item > 0)
		has("parts in steps", r.Part.Unit != nil)
		has("shares in steps", !r.Share.IsZero())
		has("rests in steps", r.Rest)
	}
}

func sortedKeys(m map[string]int) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// slipOf returns one slip in one of the demo's cards: which card, what was done, and
// the text after it.
func (b *bench) slipOf(r *rand.Rand) (name, what, text string) {
	for {
		name = b.names[r.IntN(len(b.names))]
		kind := slips[r.IntN(len(slips))]
		if text, ok := kind.do(b.texts[name], r); ok && text != b.texts[name] {
			return name, kind.name, text
		}
	}
}

// differs returns the lines in which two texts differ.
func differs(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for len(x) > 0 && len(y) > 0 && x[0] == y[0] {
		x, y = x[1:], y[1:]
	}
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
	}
	return fmt.Sprintf("%q became %q", strings.Join(x, "\n"), strings.Join(y, "\n"))
}

// slipSeed is the seed of the slips of every test run, so that a red run is the same
// run on every machine.
const slipSeed = 20

// TestNoSlipIsLost makes 2,000 single slips in the demo's cards. Each leaves the
// card's meaning, or gives a problem, or changes a value that is shown. What the card
// has (an item, a fact, a limit) never goes without a problem.
func TestNoSlipIsLost(t *testing.T) {
	b := newBench(t)
	r := rand.New(rand.NewPCG(slipSeed, 0))
	counts := map[string]map[outcome]int{}
	for i := range 2000 {
		name, what, text := b.slipOf(r)
		got, why := b.judge(name, text)
		if counts[what] == nil {
			counts[what] = map[outcome]int{}
		}
		counts[what][got]++
		if got == lost {
			t.Errorf("slip %d of seed %d, a %s in %s: lost: %s: %s", i, slipSeed, what, name, why, differs(b.texts[name], text))
		}
	}
	all := map[outcome]int{}
	for _, s := range slips {
		c := counts[s.name]
		t.Logf("%-10s %s", s.name, tally(c))
		for o, n := range c {
			all[o] += n
		}
	}
	t.Logf("%-10s %s", "in all", tally(all))
}

func tally(c map[outcome]int) string {
	return fmt.Sprintf("understood %d, found %d, changed a shown value %d, lost %d", c[understood], c[found], c[shownValue], c[lost])
}

// FuzzSlip draws more slips than [TestNoSlipIsLost].
func FuzzSlip(f *testing.F) {
	b := newBench(f)
	f.Add(uint64(1))
	f.Fuzz(func(t *testing.T, seed uint64) {
		name, what, text := b.slipOf(rand.New(rand.NewPCG(seed, 1)))
		if got, why := b.judge(name, text); got == lost {
			t.Fatalf("a %s in %s: lost: %s: %s", what, name, why, differs(b.texts[name], text))
		}
	})
}
