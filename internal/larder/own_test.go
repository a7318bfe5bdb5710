package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// ownEach holds the grams of one for every figure that the table marks OWN or
// leaves without a published row: common practice, no source. It keeps a slip in
// the table from going unseen; it is no evidence for a figure.
const ownEach = `
spring onion/bunch 100; shallot/each 25; garlic/head 40; ginger/knob 20; carrot/bunch 400; celery/head 450; celeriac/each 600; parsnip/each 120;
beetroot/each 110; fennel/each 234; asparagus/bunch 250; courgette/each 196; cucumber/each 300; radish/bunch 200; watercress/bunch 100;
lettuce/head 600; tomato/each 123; parsley/bunch 60; dill/bunch 40; dill/sprig 1; chive/bunch 25; chervil/bunch 30; tarragon/bunch 25;
tarragon/sprig 1; mint/bunch 40; mint/sprig 1; basil/bunch 40; basil/leaf 0.5; thyme/bunch 25; thyme/sprig 0.8; rosemary/sprig 3;
bay leaf/each 0.2; bay leaf/leaf 0.2; star anise/each 1.5; lemon/each 108; apple/each 182; strawberry/each 12; rhubarb/stalk 50;
gelatine/leaf 1.6; gelatine/sheet 1.6; gelatine/each 1.6; chicken/each 1800`

func TestEachWeightsFromPracticeAreAsWrittenDown(t *testing.T) {
	want := map[string]quantity.Number{}
	for entry := range strings.SplitSeq(ownEach, ";") {
		at := strings.LastIndexByte(entry, ' ')
		want[strings.TrimSpace(entry[:at])] = number(entry[at+1:])
	}
	found := 0
	for _, f := range foods {
		for unit, grams := range f.Each {
			key := f.Name + "/" + unit
			if eachRows[key] != "" {
				continue // held to USDA SR28 in sources_test.go
			}
			require.Contains(t, want, key, "a figure from practice that is not written down here")
			assert.Zero(t, want[key].Cmp(grams), "%s: %s g, common practice %s g", key, grams, want[key])
			found++
		}
	}
	assert.Len(t, want, found, "every figure written down is in the table")
}

// Weights of whole pieces that USDA SR28 gives for other sizes: the figure from
// practice must lie near them. All rows are read, in SR28's ABBREV file.
func TestEachWeightsLieNearPublishedPieces(t *testing.T) {
	for _, tt := range []struct {
		food, source string
		whole, share float64 // grams of a whole piece, and how far the table may differ
	}{
		{"lemon", "USDA SR28 09150: a fruit of 2 1/8 inches is 58 g without peel and seeds, which are 47 %", 58 / 0.53, 0.015},
		{"fennel", "USDA SR28 11957: 1 bulb is 234 g", 234, 0},
		{"cucumber", "USDA SR28 11205: 1 cucumber of 8 1/4 inches is 301 g", 301, 0.01},
	} {
		f, ok := Find(tt.food)
		require.True(t, ok)
		assert.InDelta(t, tt.whole, f.Each["each"].Float64(), tt.share*tt.whole, tt.source)
	}
	f, ok := Find("rhubarb")
	require.True(t, ok)
	assert.InDelta(t, 51, f.Each["stalk"].Float64(), 1, "USDA SR28 09307: 1 stalk is 51 g")
}

// The density of water from IAPWS-IF97, computed with another program; the food
// table has one figure for all temperatures of a kitchen and says how near it is.
func TestWaterDensityIsThatOfTheSteamTables(t *testing.T) {
	f, ok := Find("water")
	require.True(t, ok)
	seen := 0
	for _, r := range rows(t, "water.csv") {
		if c := number(r[0]).Float64(); c <= 20 {
			seen++
			assert.InDelta(t, number(r[1]).Float64()/1000, f.Density.Float64(), 0.003, "at %s °C; %s, %s", r[0], r[7], r[9])
		}
	}
	assert.Equal(t, 3, seen, "rows at 5, 10 and 20 °C")
	assert.Equal(t, "1 g/ml, within 0.3 % from 4 to 25 °C", f.Source)
}

// Trims that the table marks OWN: common practice, no source.
func TestTrimsFromPracticeAreAsWrittenDown(t *testing.T) {
	want := map[string]string{"tarragon": "20", "gooseberry": "5"}
	for _, f := range foods {
		if f.Trim.Sign() > 0 && !strings.HasPrefix(f.Source, "SR28") {
			assert.Equal(t, want[f.Name], f.Trim.Mul(quantity.Int(100)).String(), f.Name)
			delete(want, f.Name)
		}
	}
	assert.Empty(t, want)
}

// How a food is sold, whether it keeps and whether only whole ones are used is
// common practice, no source.
func TestFlagsOfTheTableAreAsWrittenDown(t *testing.T) {
	var last, whole, packs, by []string
	for _, f := range foods {
		if f.Last {
			last = append(last, f.Name)
		}
		if f.Whole {
			whole = append(whole, f.Name)
		}
		if f.Pack.Unit != nil {
			packs = append(packs, f.Name+" "+quantity.Show(f.Pack, quantity.Prefs{}))
		}
		if f.By != nil {
			by = append(by, f.Name+" by "+f.By.Name)
		}
	}
	assert.Equal(t, "spring onion, asparagus, radish, pea, pea in the pod, broad bean, spinach, watercress, lettuce, parsley, dill, chive, chervil, "+
		"tarragon, mint, basil, strawberry, raspberry, gooseberry, rhubarb, trout, cod", strings.Join(last, ", "))
	assert.Equal(t, "bay leaf, star anise", strings.Join(whole, ", "))
	assert.Equal(t, "butter 250 g, plain flour 1 kg, strong flour 1 kg, wholemeal flour 1 kg, cornflour 500 g, semolina 500 g, polenta 500 g, "+
		"rolled oat 500 g, caster sugar 1 kg, icing sugar 500 g", strings.Join(packs, ", "))
	assert.Equal(t, "spring onion by bunch, garlic by head, celery by head, celeriac by each, fennel by each, asparagus by bunch, cucumber by each, "+
		"radish by bunch, watercress by bunch, lettuce by head, parsley by bunch, dill by bunch, chive by bunch, chervil by bunch, tarragon by bunch, "+
		"mint by bunch, basil by bunch, thyme by bunch, lemon by each, egg by each, chicken by each", strings.Join(by, ", "))
}

// sectionsOfTheShop says where each food is found: common practice, no source.
const sectionsOfTheShop = `
vegetables: onion, spring onion, shallot, leek, garlic, ginger, carrot, celery, celeriac, parsnip, beetroot, potato, fennel, asparagus, courgette,
cucumber, radish, pea, pea in the pod, broad bean, spinach, watercress, lettuce, tomato, button mushroom, red pepper
herbs: parsley, dill, chive, chervil, tarragon, mint, basil, thyme, rosemary, bay leaf
dry goods: star anise, plain flour, strong flour, wholemeal flour, rice flour, cornflour, potato starch, semolina, polenta, rolled oat, caster sugar,
icing sugar, brown sugar, honey, salt, black pepper, white pepper, coriander seed, fennel seed, mustard seed, baking powder,
bicarbonate of soda, dried yeast, gelatine, agar, almond, ground almonds, hazelnut, walnut
fruit: lemon, lemon juice, orange juice, apple, strawberry, raspberry, gooseberry, rhubarb
dairy and eggs: egg, egg yolk, egg white, butter, milk, buttermilk, cream, sour cream, creme fraiche, yoghurt, ricotta, parmesan
oils and vinegars: olive oil, sunflower oil, white wine vinegar, cider vinegar, dijon mustard, caper
tins and jars: tomato paste
drinks: white wine, red wine
none: water
meat: chicken, chicken back, chicken thigh, lamb shoulder, pork belly, beef
fish: trout, cod`

func TestSectionsAreAsWrittenDown(t *testing.T) {
	got := map[string][]string{}
	for _, f := range foods {
		got[f.Section] = append(got[f.Section], f.Name)
	}
	seen := 0
	for section, names := range wordLists(sectionsOfTheShop) {
		assert.Equal(t, names, got[section], section)
		seen++
	}
	assert.Len(t, got, seen)
}

// otherNames are the words that mean a food beside its own name. They decide what
// is bought and which allergens an item carries: own compilation, no source.
const otherNames = `
onion: brown onion, yellow onion, white onion, red onion
spring onion: scallion
shallot: banana shallot
ginger: ginger root, root ginger
celeriac: celery root
beetroot: beet
potato: waxy potato, floury potato, new potato
fennel: fennel bulb, bulb fennel
asparagus: green asparagus
courgette: zucchini
radish: breakfast radish
pea: garden pea, fresh pea
pea in the pod: pea in pod
broad bean: fava bean
spinach: baby spinach
lettuce: cos lettuce, romaine
tomato: ripe tomato
button mushroom: mushroom, white mushroom, chestnut mushroom
red pepper: sweet red pepper
parsley: flat parsley, flat-leaf parsley
bay leaf: bay
lemon: unwaxed lemon
apple: eating apple, cooking apple
egg: hen egg, whole egg
egg yolk: yolk
egg white: white of egg
butter: unsalted butter, salted butter, soft butter, cold butter
milk: whole milk
cream: double cream, heavy cream, whipping cream
sour cream: soured cream
creme fraiche: crème fraîche
yoghurt: plain yoghurt, yogurt
plain flour: flour, all-purpose flour, white flour
strong flour: bread flour, strong white flour, strong white bread flour, white bread flour
wholemeal flour: whole wheat flour
cornflour: cornstarch
potato starch: potato flour
polenta: cornmeal
rolled oat: oat
caster sugar: sugar, granulated sugar, white sugar
icing sugar: powdered sugar
brown sugar: demerara sugar, muscovado sugar
salt: fine salt, sea salt
black pepper: pepper
bicarbonate of soda: baking soda
dried yeast: instant yeast, yeast
gelatine: leaf gelatine, gelatine leaf, gelatine leaves, silver gelatine, gold gelatine, bronze gelatine, platinum gelatine,
silver gelatine leaf, gold gelatine leaf, bronze gelatine leaf, platinum gelatine leaf
agar: agar powder
almond: blanched almond
ground almonds: ground almond
olive oil: extra virgin olive oil
sunflower oil: rapeseed oil, vegetable oil, neutral oil, frying oil
white wine vinegar: wine vinegar, red wine vinegar
dijon mustard: mustard, english mustard, grain mustard
tomato paste: tomato purée, tomato puree
white wine: dry white wine
water: cold water, warm water, ice
chicken: whole chicken
chicken back: chicken carcass, chicken wing
lamb shoulder: shoulder of lamb
beef: chuck, beef shin, braising beef
trout: trout fillet, river trout
cod: hake`

func TestOtherNamesMeanTheirFood(t *testing.T) {
	names := map[string]bool{}
	for name, others := range wordLists(otherNames) {
		for _, other := range append(others, name) {
			f, ok := Find(other)
			require.True(t, ok, other)
			assert.Equal(t, name, f.Name, other)
			names[singular(other)] = true
		}
	}
	for _, f := range foods {
		names[singular(f.Name)] = true
	}
	assert.Len(t, byName, len(names), "no other word names a food")
}

// wordLists reads "name: word, word" lines; a line without a colon goes on.
func wordLists(text string) map[string][]string {
	out := map[string][]string{}
	name := ""
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if head, rest, ok := strings.Cut(line, ": "); ok {
			name, line = head, rest
		}
		for word := range strings.SplitSeq(line, ",") {
			if word = strings.TrimSpace(word); word != "" {
				out[name] = append(out[name], word)
			}
		}
	}
	return out
}
