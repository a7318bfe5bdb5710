package card

import (
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// oneItem is a card with one line of a list for its formula.
const oneItem = "---\nmakes: 10 plates\n---\n\n# Card\n\n## Formula\n\n- LINE\n\n## Method\n\n1. Cook.\n   - hands: 5 min\n"

// itemOf compiles a card whose formula is one line, and returns its item and the problems
// of that line.
func itemOf(t require.TestingT, line string) (Item, []string) {
	c, problems := Parse("card.md", []byte(strings.Replace(strings.Replace(oneItem, "LINE", line, 1), "- |", "", 1)))
	require.Len(t, c.Items, 1, line)
	var told []string
	for _, p := range problems {
		if p.Line >= 9 && p.Line < 14 && !strings.HasPrefix(p.Msg, "no step names") {
			told = append(told, p.Error())
		}
	}
	return c.Items[0], told
}

// TestAmountsSaidTwice reads what a line says a second time of its item: the weight of one,
// of all, of a cup of it. The figures are by hand; a US cup has 236.5882365 ml.
func TestAmountsSaidTwice(t *testing.T) {
	for _, row := range []struct{ line, amount, unit, name, prep, each, density string }{
		{"1 (28-oz) can tomatoes", "1", "can", "tomatoes", "", "28 oz", ""},
		{"1 (28 oz) can tomatoes", "1", "can", "tomatoes", "", "28 oz", ""},
		{"1 28-oz can tomatoes, drained", "1", "can", "tomatoes", "drained", "28 oz", ""},
		{"1 large (28-oz) can tomatoes", "1", "can", "tomatoes", "large", "28 oz", ""},
		{"1 x 400g/14oz tin chickpeas", "1", "tin", "chickpeas", "", "400 g", ""},
		{"2x400g tins beans", "2", "tin", "beans", "", "400 g", ""},
		{"1 onion, chopped, about 1 cup", "1", "each", "onion", "chopped, about 1 cup", "", ""},
		{"1 bottle red wine (750 ml)", "1", "bottle", "red wine", "", "750 ml", ""},
		{"2 x 400 g tins tomatoes", "2", "tin", "tomatoes", "", "400 g", ""},
		{"2 × 400 g tomatoes", "2", "each", "tomatoes", "", "400 g", ""},
		{"2 cans (28 oz each) tomatoes", "2", "can", "tomatoes", "", "28 oz", ""},
		{"2 cans tomatoes (28 oz each)", "2", "can", "tomatoes", "", "28 oz", ""},
		{"1 yellow onion (about 12 oz)", "1", "each", "yellow onion", "", "12 oz", ""},
		{"1 yellow onion (about 12 oz), sliced", "1", "each", "yellow onion", "sliced", "12 oz", ""},
		{"1 yellow onion, about 12 oz, sliced", "1", "each", "yellow onion", "sliced", "12 oz", ""},
		{"3 onions (about 12 oz in all)", "3", "each", "onions", "", "4 oz", ""},
		{"3 onions, 12 oz total, sliced", "3", "each", "onions", "sliced", "4 oz", ""},
		{"4 salmon fillets, 6 oz each", "4", "each", "salmon fillets", "", "6 oz", ""},
		{"4 salmon fillets, each about 6 oz", "4", "each", "salmon fillets", "", "6 oz", ""},
		{"4 salmon fillets, about 170 g each, skinned", "4", "each", "salmon fillets", "skinned", "170 g", ""},
		{"4 (6-oz) salmon fillets", "4", "each", "salmon fillets", "", "6 oz", ""},
		{"4 salmon fillets (6 oz each)", "4", "each", "salmon fillets", "", "6 oz", ""},
		{"2 cups (473.176473 g) sugar", "2", "cup", "sugar", "", "", "1"},
		{"2 cups sugar (473.176473 g)", "2", "cup", "sugar", "", "", "1"},
		{"1 L oil (920 g)", "1", "litre", "oil", "", "", "23/25"},
		{"900 g (2 L) popcorn", "900", "gram", "popcorn", "", "", "9/20"},
		{"450 g (1 lb) butter", "450", "gram", "butter", "", "", ""},
		{"450 g/1 lb butter", "450", "gram", "butter", "", "", ""},
		{"450 g / 1 lb butter, soft", "450", "gram", "butter", "soft", "", ""},
		{"450 g butter (1 lb)", "450", "gram", "butter", "", "", ""},
		{"2 large cloves garlic, crushed", "2", "clove", "garlic", "large, crushed", "", ""},
		{"6 thin slices of bacon", "6", "slice", "bacon", "thin", "", ""},
		{"1 level tsp salt", "1", "teaspoon", "salt", "level", "", ""},
		{"4 lamb leg steaks (skin on)", "4", "each", "lamb leg steaks (skin on)", "", "", ""},
		{"2 lemons (unwaxed)", "2", "each", "lemons (unwaxed)", "", "", ""},
		{"1 tbsp oil, plus more for the pan", "1", "tablespoon", "oil", "plus more for the pan", "", ""},
		{"1 tbsp oil plus more for the pan", "1", "tablespoon", "oil", "plus more for the pan", "", ""},
		{"2 cups flour; sifted", "2", "cup", "flour", "sifted", "", ""},
		{"2 bay leaves", "2", "each", "bay leaves", "", "", ""},
		{"500 g 00 flour", "500", "gram", "00 flour", "", "", ""},
		{"1 tsp 5-spice powder", "1", "teaspoon", "5-spice powder", "", "", ""},
		{"200 g 70 % chocolate", "200", "gram", "70 % chocolate", "", "", ""},
		{"200 g 70% chocolate", "200", "gram", "70% chocolate", "", "", ""},
		{"1.05 kg trout fillets, pin-boned", "1050", "gram", "trout fillets", "pin-boned", "", ""},
		{"2 T-bone steaks", "2", "each", "T-bone steaks", "", "", ""},
		{"1 kg tomatoes in juice", "1000", "gram", "tomatoes in juice", "", "", ""},
		{"6 bass fillets from the tail", "6", "each", "bass fillets from the tail", "", "", ""},
		{"a dozen eggs", "12", "each", "eggs", "", "", ""},
		{"half a lemon, juiced", "1/2", "each", "lemon", "juiced", "", ""},
	} {
		it, told := itemOf(t, row.line)
		assert.Empty(t, told, row.line)
		assert.Equal(t, row.name, it.Name, row.line)
		assert.Equal(t, row.prep, it.Prep, row.line)
		if assert.NotNil(t, it.Amount.Unit, row.line) {
			n, unit := it.Amount.Qty, it.Amount.Unit
			if g, ok := quantity.Convert(n, unit, gram); ok && row.unit == "gram" {
				n, unit = g, gram
			}
			assert.Equal(t, row.unit, unit.Name, row.line)
			assert.Equal(t, row.amount, n.String(), row.line)
		}
		each := ""
		if it.Each.Unit != nil {
			each = quantity.Written(it.Each)
		}
		assert.Equal(t, row.each, each, row.line)
		if row.density == "" {
			assert.True(t, it.Density.IsZero(), row.line)
		} else {
			assert.Equal(t, row.density, it.Density.String(), row.line)
		}
	}
}

// TestSecondAmountsAreProblems: what a line says of amounts and is not read gets a problem
// that says what to type.
func TestSecondAmountsAreProblems(t *testing.T) {
	for line, want := range map[string]string{
		"2 eggs plus 1 yolk":             `begin a line of its own with it: "- 1 yolk"`,
		"2 eggs plus a yolk":             `begin a line of its own with it: "- a yolk"`,
		"500 g (about 4) onions":         "stays the same when the amount grows",
		"500 g onions (about 4)":         "stays the same when the amount grows",
		"1 onion and a carrot":           `begin a line of its own with it: "- a carrot"`,
		"2 tbsp olive oil, plus 1 tsp":   `like "2 tbsp plus 1 tsp olive oil"`,
		"1 egg, plus 1 egg yolk":         `begin a line of its own with it: "- 1 egg yolk"`,
		"1 3- to 4-lb chicken":           "is part of the item's name",
		"2-inch piece ginger":            "a length has no weight",
		"2 pints/1.5 litres stock":       "are not the same",
		"100g flour 50g sugar":           `begin a line of its own with it: "- 50g sugar"`,
		"2 cups flour; 1 cup sugar":      `begin a line of its own with it: "- 1 cup sugar"`,
		"2 cups flour, 1 cup sugar":      `begin a line of its own with it: "- 1 cup sugar"`,
		"1 lb 20 oz potatoes":            "is part of the item's name",
		"8 oz 2 lb potatoes":             "is part of the item's name",
		"450 g/2 lb butter":              "are not the same",
		"2 eggs/1 lb butter":             "is part of the item's name",
		"450 g/2 eggs":                   "goes on like a figure",
		"1–2 lb 8 oz potatoes":           "is part of the item's name",
		"4 salmon fillets (1.5 lb)":      "may be the weight of one or of all",
		"4 salmon fillets, 1.5 lb":       "may be the weight of one or of all",
		"2–3 onions (about 1 lb in all)": "may be the weight of one or of all",
		"1 kg potatoes (3 lb)":           "are not the same",
		"1 kg (3 lb) potatoes":           "are not the same",
		"1 heaping cup oats":             "has no fixed size",
		"1 packed cup brown sugar":       "has no fixed size",
		"2 scant tbsp oil":               "has no fixed size",
		"2 gills cream":                  "is a measure that is not read",
		"1 shot vodka":                   "is a measure that is not read",
		"1 dessertspoon honey":           "is a measure that is not read",
		"6 squat cups oats":              `"cups" is part of the item's name`,
		"3 smoked ounces trout":          `"ounces" is part of the item's name`,
		"flour 500g":                     "is part of the item's name",
		"500 g tin tomatoes":             `write it like "1 tin tomatoes, each 500 g"`,
		"1 baker's dozen rolls":          `"dozen" is part of the item's name`,
		"1 onion (12 oz trimmed)":        "is read as words",
		"2 eggs, 60 g each, 70 g each":   "says twice",
	} {
		_, told := itemOf(t, line)
		if assert.NotEmpty(t, told, line) {
			assert.Contains(t, strings.Join(told, "\n"), want, line)
			assert.Len(t, told, 1, line)
		}
	}
}

// TestSecondAmountScales shows what a line says twice for a batch of three. By hand: 3 × 2
// US cups of 236.5882365 ml are 1419.5 ml.
func TestSecondAmountScales(t *testing.T) {
	c, _ := Parse("card.md", []byte(strings.Replace(oneItem, "LINE", "2 cups (450 g) sugar", 1)))
	metric := c.Scale(quantity.Int(3), 0, quantity.Prefs{}).Items[0]
	assert.Equal(t, [2]string{"1.42 L", "1.35 kg"}, [2]string{metric.Amount, metric.Beside()})
	us := c.Scale(quantity.Int(3), 0, quantity.Prefs{System: quantity.US}).Items[0]
	assert.Equal(t, [2]string{"1 ½ qt", "2 lb 15 ½ oz"}, [2]string{us.Amount, us.Beside()})
}

// TestHalfOfOneIsNotHalfOfAll: with two lemons in the formula "half a lemon" is one half,
// and "half the lemons" is one.
func TestHalfOfOneIsNotHalfOfAll(t *testing.T) {
	for words, want := range map[string]string{"half a lemon": "1/2", "half the lemons": "1", "a half of the lemons": "1"} {
		c, problems := Parse("card.md", []byte(strings.Replace(strings.Replace(oneItem, "LINE", "2 lemons", 1), "Cook.", "Squeeze **"+words+"**, then the **rest of the lemons**.", 1)))
		assert.Empty(t, lines(problems), words)
		used, _ := c.Uses(0, quantity.Int(1))
		require.NotEmpty(t, used, words)
		assert.Equal(t, want, used[0][1].Amount.Qty.String(), words)
	}
}

// TestAmountsInPartsAreReadInEveryFact reads "2 lb 8 oz" wherever a card has an amount.
func TestAmountsInPartsAreReadInEveryFact(t *testing.T) {
	const text = "---\nmakes: 2 lb 8 oz\nsmallest: 1 lb 4 oz\nlargest: 5 lb 8 oz\nportion: 1 lb 4 oz\n---\n\n# Mash\n\n## Formula\n\n| Amount | Item | Each | Prep |\n|--|--|--|--|\n" +
		"| 2 lb 8 oz | potatoes | | pack 1 lb 4 oz |\n| 2 | swedes | 1 lb 4 oz | |\n\n## Method\n\n1. Boil **1 lb 4 oz potatoes**, then the **rest of the potatoes** and **swedes**.\n" +
		"   - hands: 5 min + 1 min per 1 lb 4 oz\n   - load: 1 lb 4 oz\n   - until: 2 lb 8 oz\n\n## Saves\n\n- peel: 1 lb 4 oz, 2 d chilled\n"
	c, problems := Parse("mash.md", []byte(text))
	assert.Empty(t, lines(problems))
	small, large := quantity.Int(20), quantity.Int(40) // ounces: a pound has 16
	step := c.Steps[0]
	for what, a := range map[string]quantity.Amount{"smallest": c.Smallest, "portion": c.Portion, "pack": c.Items[0].Pack, "each": c.Items[1].Each, "part": step.Text[1].Part,
		"per": step.Hands.Per, "load": step.Load, "saves": c.Saves[0].Amount} {
		assert.Zero(t, small.Cmp(a.Qty), what)
		assert.Equal(t, "ounce", a.Unit.Name, what)
	}
	for what, a := range map[string]quantity.Amount{"makes": c.Makes, "item": c.Items[0].Amount, "until": step.Until.Amount} {
		assert.Zero(t, large.Cmp(a.Qty), what)
	}
	hot, _ := Parse("card.md", []byte(strings.Replace(strings.Replace(oneItem, "LINE", "1 C. water", 1), "hands: 5 min", "until: 118 C\n   - hands: 5 min", 1)))
	assert.Nil(t, hot.Steps[0].Until.Amount.Unit, "118 C is a temperature, not cups")
}

// TestListAndTableReadAmountsAlike types one amount in a list and in a table. Both give the
// same item, or both a problem. A size alone ("3 large") stays with the name in a list, and
// goes to the preparation in a table.
func TestListAndTableReadAmountsAlike(t *testing.T) {
	units := []string{"", "", "g", "G", "kg", "lb", "lb.", "LB", "oz", "Oz.", "cup", "cups", "c.", "C", "T", "T.", "t", "tsp", "Tbsp.", "fl. oz.", "US pint", "pt.", "clove", "Cloves", "tins", "dozen", "doz.", "pair"}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom([]string{"1", "2", "½", "1 ½", "1 1/2", "1⁄8", "2-3", "1 or 2", "1,5", "1,500", "1 and a half", "1-1/2", "about 2", "half a", "a"}).Draw(t, "figure")
		for range rapid.IntRange(0, 2).Draw(t, "words") {
			text += " " + rapid.SampledFrom(append([]string{"large", "heaped", "level", "thin", "(28-oz)", "(450 g)", "(about 4)", "x 400 g", "28-oz", "/ 1 lb"}, units...)).Draw(t, "word")
		}
		text += rapid.SampledFrom([]string{"", "", " lb 8 oz", " kg 200 g", " quart + 1 cup", " cups plus 2 tbsp", " oz 2 lb", " oz–1 lb"}).Draw(t, "second")
		text = strings.TrimSpace(text)
		list, listTold := itemOf(t, text+" leeks")
		table, tableTold := itemOf(t, "|\n\n| Amount | Item |\n|--|--|\n| "+text+" | leeks |")
		first, _, _ := strings.Cut(list.Name, " ")
		if u, ok := quantity.LookupUnit(first); ok && u.Dim == quantity.Count && list.Amount.Unit != quantity.Each {
			return // "40 g leaf parsley": a word for what is counted may be part of a name
		}
		if (len(listTold) == 0) != (len(tableTold) == 0) {
			t.Fatalf("%q: a list is told %q, a table %q", text, listTold, tableTold)
		}
		list.Pos, table.Pos = document.Pos{}, document.Pos{}
		said := func(it Item) []string {
			words := strings.Fields(strings.ReplaceAll(it.Name+" "+it.Prep, ",", ""))
			slices.Sort(words)
			return words
		}
		if strings.HasSuffix(list.Name, " leeks") && slices.Equal(said(list), said(table)) {
			list.Name, list.Prep = table.Name, table.Prep
		}
		if len(listTold) == 0 && !assert.ObjectsAreEqual(list, table) {
			t.Fatalf("%q: a list reads %+v, a table %+v", text, list, table)
		}
	})
}

// TestNoAmountStaysInAName puts figures and units, in any case and with or without a full
// stop, among the words of a name. No figure and no measure is left in a name without a
// problem.
func TestNoAmountStaysInAName(t *testing.T) {
	words := []string{"old", "green", "leeks", "butter", "of", "fine", "and", "plus", "fillets", "oil"}
	stray := []string{"2", "½", "50g", "1.5", "3/4", "2-3", "8 oz", "1 lb", "400", "dozen", "doz.", "(12 oz)", "(2 cups)"}
	for _, unit := range []string{"g", "kg", "oz", "ounces", "lb", "pounds", "ml", "litres", "tsp", "tbsp", "cup", "cups", "pint", "fl oz", "T", "t", "c"} {
		stray = append(stray, unit, unit+".", strings.ToUpper(unit))
	}
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SliceOfN(rapid.SampledFrom(words), 1, 4).Draw(t, "name")
		at := rapid.IntRange(0, len(name)).Draw(t, "at")
		name = append(append(append([]string{}, name[:at]...), rapid.SampledFrom(stray).Draw(t, "stray")), name[at:]...)
		line := rapid.SampledFrom([]string{"3 ", "1 ", "200 g ", "2 cups ", "4 cloves ", "½ ", ""}).Draw(t, "amount") + strings.Join(name, " ")
		c, problems := Parse("card.md", []byte(strings.Replace(oneItem, "LINE", line, 1)))
		for _, p := range problems {
			if p.Line == 9 && !strings.HasPrefix(p.Msg, "no step names") {
				return
			}
		}
		require.Len(t, c.Items, 1, line)
		for _, word := range strings.Fields(c.Items[0].Name) {
			u, unit := quantity.LookupUnit(word)
			if strings.ContainsFunc(word, unicode.IsNumber) || unit && (u.Dim == quantity.Mass || u.Dim == quantity.Volume) || strings.HasPrefix(word, "doz") {
				t.Fatalf("%q is named %q without a problem", line, c.Items[0].Name)
			}
		}
	})
}
