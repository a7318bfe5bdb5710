package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestAmountsInSeveralParts reads what cooks write in more than a figure and a unit. Base
// units by hand, from the factors of the unit table, which has its own test against the
// law: a pound is 453.59237 g and 16 oz, a US cup 236.5882365 ml and 16 tbsp.
func TestAmountsInSeveralParts(t *testing.T) {
	for in, want := range map[string]struct{ base, unit, rest string }{
		"2 lb 8 oz potatoes":        {"45359237/40000", "ounce", "potatoes"},
		"1 lb. 4 oz. carrots":       {"45359237/80000", "ounce", "carrots"},
		"2 pounds 8 ounces":         {"45359237/40000", "ounce", ""},
		"2 pounds and 8 ounces":     {"45359237/40000", "ounce", ""},
		"1lb4oz beef":               {"45359237/80000", "ounce", "beef"},
		"1 kg 200 g":                {"1200", "gram", ""},
		"1 L 250 ml milk":           {"1250", "millilitre", "milk"},
		"1 quart + 1 cup water":     {"473176473/400000", "cup", "water"},
		"2 cups plus 2 tbsp milk":   {"", "tablespoon", "milk"},
		"1 cup, 2 tbsp milk":        {"", "cup", ", 2 tbsp milk"},
		"200 g + 1 kg":              {"1200", "gram", ""},
		"1 and 1/2 cups yogurt":     {"", "cup", "yogurt"},
		"1 & 1/2 kg":                {"1500", "kilogram", ""},
		"2 and a half kg flour":     {"2500", "kilogram", "flour"},
		"1 and a quarter kg":        {"1250", "kilogram", ""},
		"1-1/2 kg":                  {"1500", "kilogram", ""},
		"1⁄8 kg salt":               {"125", "kilogram", "salt"},
		"1 1⁄8 kg salt":             {"1125", "kilogram", "salt"},
		"1∕8 kg":                    {"125", "kilogram", ""},
		"½ of a kilo milk":          {"500", "kilogram", "milk"},
		"½ a lemon":                 {"1/2", "each", "lemon"},
		"1/2 of an onion":           {"1/2", "each", "onion"},
		"3 dozen eggs":              {"36", "each", "eggs"},
		"1 doz eggs":                {"12", "each", "eggs"},
		"1 doz. eggs":               {"12", "each", "eggs"},
		"1/2 dozen limes":           {"6", "each", "limes"},
		"half a dozen limes":        {"6", "each", "limes"},
		"a dozen eggs":              {"12", "each", "eggs"},
		"two large eggs":            {"2", "each", "large eggs"},
		"Twelve eggs":               {"12", "each", "eggs"},
		"two":                       {"2", "each", ""},
		"one and a half kg rice":    {"1500", "kilogram", "rice"},
		"three cloves garlic":       {"3", "clove", "garlic"},
		"1 kg and a half":           {"1500", "kilogram", ""},
		"half kilo mussels":         {"500", "kilogram", "mussels"},
		"three-quarters of a kilo":  {"750", "kilogram", ""},
		"two thirds kilo":           {"2000/3", "kilogram", ""},
		"quarter of a cabbage":      {"1/4", "each", "cabbage"},
		"2 kg wt. beans":            {"2000", "kilogram", "beans"},
		"3 kg.beans":                {"3000", "kilogram", "beans"},
		"a pinch of salt":           {"1", "pinch", "of salt"},
		"an ounce of butter":        {"45359237/1600000", "ounce", "of butter"},
		"2 dozen slices ham":        {"24", "slice", "ham"},
		"2 pairs kippers":           {"4", "each", "kippers"},
		"1 brace of pheasants":      {"2", "each", "of pheasants"},
		"1 lb 4 cloves garlic":      {"45359237/100000", "pound", "4 cloves garlic"},
		"1 lb 20 oz beef":           {"45359237/100000", "pound", "20 oz beef"},
		"8 oz 2 lb beef":            {"45359237/200000", "ounce", "2 lb beef"},
		"2 eggs plus 1 yolk":        {"2", "each", "eggs plus 1 yolk"},
		"28-oz can tomatoes":        {"317514659/400000", "ounce", "can tomatoes"},
		"1 T-bone steak":            {"1", "each", "T-bone steak"},
		"500 g - onions":            {"500", "gram", "- onions"},
		"1 cup 2% milk":             {"473176473/2000000", "cup", "2% milk"},
		"100 g 1,500 ml":            {"100", "gram", "1,500 ml"},
		"2 lb 8 oz plus 1 cup milk": {"45359237/40000", "ounce", "plus 1 cup milk"},
	} {
		a, rest, err := ParseAmount(in)
		if !assert.NoError(t, err, in) {
			continue
		}
		assert.Equal(t, want.unit, a.Unit.Name, in)
		assert.Equal(t, want.rest, rest, in)
		assert.True(t, a.To.IsZero(), in)
		if want.base != "" {
			assert.Equal(t, want.base, a.Qty.Mul(a.Unit.Factor).String(), in)
		}
	}
	a, _, err := ParseAmount("2 cups plus 2 tbsp milk")
	require.NoError(t, err)
	assert.Equal(t, "34", a.Qty.String(), "tablespoons")
	a, _, err = ParseAmount("1 and 1/2 cups yogurt")
	require.NoError(t, err)
	assert.Equal(t, "3/2", a.Qty.String(), "cups")
}

// TestRangesOfWholeAmounts reads ranges whose ends both have a unit, as ShowParts and
// Show write them. By hand.
func TestRangesOfWholeAmounts(t *testing.T) {
	for in, want := range map[string][3]string{
		"900 g–1.1 kg":            {"900", "1100", "gram"},
		"8 oz to 1 lb beef":       {"8", "16", "ounce"},
		"1 lb 4 oz–1 lb 8 oz ham": {"20", "24", "ounce"},
		"1 or 2 onions":           {"1", "2", "each"},
		"2 or 3 cloves garlic":    {"2", "3", "clove"},
		"2-3 dozen eggs":          {"24", "36", "each"},
	} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, [3]string{a.Qty.String(), a.To.String(), a.Unit.Name}, in)
	}
	_, rest, err := ParseAmount("1–2 lb 8 oz beef")
	require.NoError(t, err)
	assert.Equal(t, "8 oz beef", rest, "whether the ounces belong to one end or to both is not said")
}

// TestShortWordsOfMeasures reads the short forms that differ in capitals or full stops.
// Common practice, no source: a capital T is a tablespoon, a small t a teaspoon.
func TestShortWordsOfMeasures(t *testing.T) {
	for in, want := range map[string][2]string{
		"6 T butter":           {"tablespoon", "butter"},
		"1 T. paprika":         {"tablespoon", "paprika"},
		"1 t. paprika":         {"teaspoon", "paprika"},
		"2t salt":              {"teaspoon", "salt"},
		"1 Tb salt":            {"tablespoon", "salt"},
		"1 tbl. salt":          {"tablespoon", "salt"},
		"¼ c. flour":           {"cup", "flour"},
		"2c. rice":             {"cup", "rice"},
		"2 C. lentils":         {"cup", "lentils"},
		"12 fl. oz. beer":      {"fluid ounce", "beer"},
		"12 fl.oz. beer":       {"fluid ounce", "beer"},
		"1 US pint milk":       {"pint", "milk"},
		"1 U.S. pint milk":     {"pint", "milk"},
		"1 UK pint milk":       {"imperial pint", "milk"},
		"1 imp. gal. milk":     {"imperial gallon", "milk"},
		"5 cc rum":             {"millilitre", "rum"},
		"2 teaspoonfuls salt":  {"teaspoon", "salt"},
		"2 c. à soupe d'huile": {"metric tablespoon", "d'huile"},
		"2 sachets yeast":      {"sachet", "yeast"},
		"1 pkg. yeast":         {"packet", "yeast"},
	} {
		a, rest, err := ParseAmount(in)
		require.NoError(t, err, in)
		assert.Equal(t, want, [2]string{a.Unit.Name, rest}, in)
	}
}

// TestEveryUnitIsReadInAnyCase reads every word of the unit table in lower case, in
// capitals and with a full stop. T and t alone differ.
func TestEveryUnitIsReadInAnyCase(t *testing.T) {
	for word, want := range byWord {
		for _, typed := range []string{word, word + "."} {
			u, ok := LookupUnit(typed)
			require.True(t, ok, typed)
			assert.Same(t, want, u, typed)
		}
		if len(word) == 1 {
			continue
		}
		u, ok := LookupUnit(title(word))
		require.True(t, ok, word)
		assert.Same(t, want, u, word)
	}
	assert.NotEqual(t, byWord["T"], byWord["t"])
}

// title returns a word with a capital, "Tbsp".
func title(word string) string {
	r := []rune(word)
	if r[0] >= 'a' && r[0] <= 'z' {
		r[0] -= 'a' - 'A'
	}
	return string(r)
}

// TestWhatIsShownIsRead: every amount that a cook reads on a screen can be typed back,
// whole and at the same value, but for rounding.
func TestWhatIsShownIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom(units).Draw(t, "unit")
		part := int64(48)
		if u.Dim == Count || u.Dim == Length {
			part = 4
		}
		a := Amount{Qty: Frac(int64(rapid.IntRange(1, 4000).Draw(t, "qty")), part), Unit: u}
		if rapid.Bool().Draw(t, "range") {
			a.To = a.Qty.Add(Frac(int64(rapid.IntRange(1, 400).Draw(t, "more")), part))
		}
		if u.Dim != Count && a.Qty.Mul(u.Factor).Cmp(Int(1)) < 0 {
			return // a speck, which is shown with three decimals
		}
		a.About = rapid.Bool().Draw(t, "about")
		p := Prefs{System: rapid.SampledFrom([]System{Metric, US, Imperial}).Draw(t, "system"), AsTyped: rapid.Bool().Draw(t, "typed"), Ladder: rapid.Bool().Draw(t, "ladder")}
		shown := Show(a, p)
		got, rest, err := ParseAmount(shown)
		if err != nil || rest != "" {
			t.Fatalf("%+v is shown as %q, which leaves %q: %v", a, shown, rest, err)
		}
		if got.About != a.About || got.Unit.Dim != u.Dim || u.Dim == Count && got.Unit != u {
			t.Fatalf("%q is read as %+v", shown, got)
		}
		near := func(have, want Number) bool {
			have, want = have.Mul(got.Unit.Factor), want.Mul(u.Factor)
			return signed(have.Sub(want), Int(1)).Cmp(want.Mul(Frac(1, 20))) <= 0
		}
		if !near(got.Qty, a.Qty) || !near(got.Need(), a.Need()) {
			t.Fatalf("%s–%s %s is shown as %q and read as %s–%s %s", a.Qty, a.To, u.Name, shown, got.Qty, got.To, got.Unit.Name)
		}
	})
}
