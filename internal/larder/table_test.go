package larder

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestTableIsWhole reads every row: its words are those that README.md explains, no name
// is there twice, and every food that it names is there.
func TestTableIsWhole(t *testing.T) {
	require.GreaterOrEqual(t, len(foods), 1000)
	seen := map[string]string{}
	sections := []string{"meat", "fish", "dairy and eggs", "vegetables", "herbs", "fruit", "dry goods", "none", "oils and vinegars", "tins and jars", "other", "bread", "drinks", "frozen"}
	for i := range foods {
		f := &foods[i]
		assert.Contains(t, sections, f.Section, f.Name)
		for _, name := range append([]string{f.Name}, f.SameAs()...) {
			assert.Empty(t, seen[key(name)], "%s names %s and another food", name, f.Name)
			seen[key(name)] = f.Name
			assert.Equal(t, f, byName[key(name)], name)
		}
		for _, token := range f.list() {
			assert.True(t, isToken(token), "%s: what is %q?", f.Name, token)
		}
		if strings.Contains(f.tokens, "<") {
			assert.NotNil(t, f.parent, "%s is a kind of nothing", f.Name)
		}
		for _, k := range f.marked("+") {
			assert.True(t, byName[strings.TrimSuffix(k, "?")] != nil || k == "alcohol", "%s is made of %s", f.Name, k)
		}
		assert.NotEmpty(t, f.Animals(), f.Name)
		assert.Equal(t, f.Pack().Unit != nil, f.has("pack"), f.Name)
		assert.Equal(t, f.By() != nil, f.has("by"), f.Name)
	}
}

// isToken reports whether a word of the table is one that README.md explains.
func isToken(token string) bool {
	word, value, valued := strings.Cut(token, "=")
	if !valued {
		_, allergen := official[strings.Trim(word, "?~!")]
		return allergen || slices.Contains([]string{"cat", "whole", "rennet", "plain", "blend", "open"}, word) || strings.ContainsAny(word[:1], "<+")
	}
	u, unit := quantity.LookupUnit(word)
	switch {
	case word == "h":
		return heats[value] != ""
	case word == "m", word == "m?":
		return slices.Contains([]Animal{Meat, Poultry, Fish, Shellfish, Dairy, Eggs, Honey, Gelatine, NoAnimal}, Animal(value))
	case unit && u.Name == word:
		return true
	}
	return slices.Contains([]string{"t", "d", "e", "k", "by", "pack"}, word)
}

// differentGoods are names that a shop has apart: the order list must never buy one for
// the other. What is the same good in a shop is common practice, no source.
const differentGoods = `
hake: cod, whiting, pollack
peppers: black pepper, pepper, white pepper
red pepper: black pepper, green pepper
fresh yeast: dried yeast, yeast
double cream: whipping cream, cream, single cream, sour cream, clotted cream, creme fraiche
red wine vinegar: white wine vinegar, cider vinegar, balsamic vinegar, malt vinegar, vinegar
rapeseed oil: sunflower oil, vegetable oil, olive oil, oil
chicken wings: chicken backs, chicken thighs, chicken
chicken thighs: bone-in chicken thighs
beef shin: beef, chuck, beef cheek
tinned tomatoes: tomatoes, passata, tomato paste
chopped tomatoes: tomatoes
red onion: onion, shallot, spring onion
caster sugar: icing sugar, granulated sugar, brown sugar
plain flour: strong flour, self-raising flour, rye flour, flour
parsley: coriander, curly parsley
salted butter: butter, clarified butter
smoked bacon: unsmoked bacon, pancetta
coconut milk: milk, coconut cream
peanut butter: butter
butternut squash: butter
smoked trout: trout
frozen peas: peas
water chestnuts: water, chestnuts
egg plant: egg
oyster mushrooms: oysters, mushrooms
powdered gelatine: leaf gelatine
ground almonds: almonds, flaked almonds
dried apricots: apricots
sesame oil: sesame seeds
white wine: red wine, white wine vinegar
lemon juice: lemon, bottled lemon juice
spaghetti: penne, egg pasta
galia melon: watermelon, cantaloupe
`

func TestDifferentGoodsStayApart(t *testing.T) {
	for name, others := range wordLists(differentGoods) {
		f, ok := Find(name)
		require.True(t, ok, name)
		for _, other := range others {
			g, ok := Find(other)
			assert.True(t, !ok || g != f, "%s is bought for %s", f.Name, other)
			assert.True(t, ok || byName[key(other)] != nil && byName[key(other)].Category(), "%s is not in the table", other)
		}
	}
}

// sameGoods are British and American names of one good: common practice, no source.
const sameGoods = `
aubergine: eggplant
courgette: zucchini
spring onion: scallion, green onion, salad onions
coriander: cilantro
rocket: arugula
swede: rutabaga
beetroot: beets
broad bean: fava beans
mangetout: snow peas
sweetcorn: corn
plain flour: all-purpose flour
strong flour: strong white bread flour
wholemeal flour: whole wheat flour
icing sugar: powdered sugar, confectioners' sugar
cornflour: cornstarch
bicarbonate of soda: baking soda
treacle: molasses
whipping cream: heavy cream
beef mince: ground beef
prawn: raw prawns
chickpea: garbanzo beans
ginger: root ginger
bell pepper: sweet peppers, peppers
rapeseed oil: canola oil
groundnut oil: peanut oil
yoghurt: plain yogurt
crème fraîche: creme fraiche
dried yeast: instant yeast
gelatine: leaf gelatin
butter: unsalted butter
single cream: light cream
tomato paste: tomato purée
double cream: Double CREAM
`

func TestSameGoodsHaveOneRow(t *testing.T) {
	for name, others := range wordLists(sameGoods) {
		f, ok := Find(name)
		require.True(t, ok, name)
		for _, other := range others {
			g, ok := Find(other)
			if assert.True(t, ok, other) {
				assert.Equal(t, f.Name, g.Name, other)
			}
		}
	}
}

// A broader food gives its figures and is never bought in place of what was typed.
func TestNearestFood(t *testing.T) {
	for item, want := range map[string]string{
		"finely sliced red onions":    "red onion",
		"large ripe tomatoes":         "tomato",
		"celeriac steaks":             "celeriac",
		"shoulder of rare-breed lamb": "lamb",
		"stone-ground flour":          "flour",
		"mixed peppers":               "bell pepper",
		"cracked pepper":              "black pepper",
		"parsley stalks and leaves":   "parsley stalk",
		"moonflower":                  "",
		"smoked onions":               "",
		"vegan butter":                "",
		"":                            "",
	} {
		n := Nearest(item)
		got := ""
		if n.Food != nil {
			got = n.Name
		}
		assert.Equal(t, want, got, item)
		assert.False(t, n.Same, item)
		_, same := Find(item)
		assert.False(t, same, item)
	}
	n := Nearest("red onions, sliced")
	assert.True(t, n.Same)
	assert.Equal(t, "onion", n.parent.Name)
}

// How a food is sold, whether it keeps and whether only whole ones are used is common
// practice, no source.
func TestWordsOfPractice(t *testing.T) {
	for _, name := range []string{"bay leaf", "star anise", "lime leaf"} {
		assert.True(t, byName[key(name)].Whole(), name)
	}
	assert.False(t, byName["onion"].Whole())
	for name, days := range map[string]int{"cod": 1, "chicken thigh": 2, "beef": 3, "parsley": 2, "onion": 7, "caster sugar": 365, "spinach": 2, "egg": 21, "raspberry": 2, "water": 0} {
		f := byName[key(name)]
		assert.Equal(t, days, f.Keeps(), name)
	}
	for name, pack := range map[string]string{"butter": "250 g", "plain flour": "1 kg", "caster sugar": "1 kg", "semolina": "500 g", "tinned tomato": "400 g"} {
		assert.Equal(t, pack, quantity.Show(byName[key(name)].Pack(), quantity.Prefs{}), name)
	}
	for name, unit := range map[string]string{"celery": "head", "parsley": "bunch", "lemon": "each", "egg": "each", "garlic": "head", "chicken": "each", "asparagus": "bunch"} {
		assert.Equal(t, unit, byName[key(name)].By().Name, name)
	}
}

func BenchmarkFind(b *testing.B) {
	items := []string{"red onions, sliced", "crème fraîche", "strong white bread flour", "Chicken thighs, bone in", "moonflower paste"}
	for i := 0; b.Loop(); i++ {
		Find(items[i%len(items)])
	}
}

func BenchmarkNearest(b *testing.B) {
	items := []string{"red onions, sliced", "finely sliced onions", "strong white bread flour", "large ripe heritage tomatoes", "moonflower paste"}
	for i := 0; b.Loop(); i++ {
		Nearest(items[i%len(items)])
	}
}

func BenchmarkReadFoods(b *testing.B) {
	for b.Loop() {
		readFoods(foodsText)
	}
}

// A part of an animal never takes the weight of the whole one.
func TestPartsDoNotWeighAsTheWhole(t *testing.T) {
	for i := range foods {
		f := &foods[i]
		each := Near{f, true}.Each(quantity.Each.Name)
		if each.Value.Float64() >= 1000 {
			assert.Contains(t, []string{"chicken", "chicken piece", "jointed chicken", "chicken joint", "butternut squash", "pineapple"}, f.Name)
		}
	}
	for item, grams := range map[string]int{"chicken thighs": 0, "chicken wings": 90, "chicken": 1800, "new potatoes": 60, "potatoes": 213, "baby carrots": 12} {
		assert.Equal(t, grams, int(Nearest(item).Each(quantity.Each.Name).Value.Float64()), item)
	}
}
