package larder

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// FuzzFind looks up any text in the food table. A food is found only when one of its
// names is the whole text, so that coconut milk is never milk; a broader food is said to
// be one; what is not assessed carries nothing.
func FuzzFind(f *testing.F) {
	for _, s := range []string{"large red onions, sliced", "coconut milk", "free-range eggs", "shallots (banana)", "the some any", "", ",", "(", "Ripe TOMATOES", "leaves", "s",
		"crème fraîche", "any butter", "\xff butter", "finely grated fresh parmesan", "ies", "gelatine leaves", "peppers", "leg of of", "on the bone", "thighs on the bone",
		"pork & fennel sausages", "oil of oil of oil in", "plant-based mince", "che", "'’'", "a-b/c"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, item string) {
		food, ok := Find(item)
		require.Equal(t, key(key(item)), key(item), "a key is its own key")
		if ok {
			require.False(t, food.Category())
			names := food.SameAs()
			named := false
			for _, name := range append(names, food.Name) {
				named = named || key(name) == key(item) || key(name)+"s" == key(item)
			}
			require.True(t, named, "%q is taken for %s", item, food.Name)
		}
		n := Nearest(item)
		require.True(t, !ok || n.Same && n.Food == food)
		require.True(t, n.Same == ok || n.Food == nil)
		a, assessed := Assess(item)
		require.True(t, assessed || len(a.Carries) == 0, "what is not assessed carries nothing")
		for _, c := range a.Carries {
			require.True(t, ok || c.Certainty == Probably || c.Certainty == May, "%q carries %s %s", item, c.Code, c.Certainty)
		}
		class, classified := Classify(item)
		require.True(t, !classified || len(class.Animals) > 0 && class.Heat != "" && class.Food != "" && class.Probably != ok)
		cooked, _ := CookedYield(item, "boil, roast, stew")
		require.LessOrEqual(t, cooked.Low.Cmp(cooked.High), 0)
	})
}

// FuzzUnderstand reads any words as what a guest avoids. What is understood avoids
// something, means the same when its own words are read again, and clashes with itself.
func FuzzUnderstand(f *testing.F) {
	for _, s := range []string{"no nuts", "nut allergy", "coeliac", "dairy-free", "vegan", "nutz", "no", "allergic to", "", "no no fish", "tree_nuts", "free", "no free-range eggs",
		"doesn't eat pork", "Sulphur Dioxide", "no moonflower", "raw fish", "\xff", "wheat intolerance please", "vegetarian, no nuts", "nuts; eggs"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		a, ok := Understand(text)
		suggested := (*Foods)(nil).Suggest(text)
		if suggested != "" {
			_, known := Understand(suggested)
			require.True(t, known, "%q is suggested and not understood", suggested)
		}
		if !ok {
			require.Empty(t, a)
			return
		}
		require.NotZero(t, len(a.Allergens)+len(a.Animals)+len(a.Heats)+len(a.Foods), text)
		both, unknown := (*Foods)(nil).UnderstandList(text + ", no celery")
		require.Empty(t, unknown, "a list of what is understood")
		require.True(t, both.Covers(a), "%q is lost from a list", text)
		again, ok := Understand(a.Words)
		require.True(t, ok, a.Words)
		require.Equal(t, a, again)
		require.True(t, a.Covers(a) && a.Covers(again))
		for _, food := range a.Foods {
			if food != "alcohol" {
				require.True(t, a.Of(food, nil).Sure, "%q clashes with itself", food)
			}
		}
	})
}

// FuzzShow writes any amount of any item. The text is never empty, and the count
// beside it is never below the amount.
func FuzzShow(f *testing.F) {
	f.Add("eggs", int64(34), int64(10), "each")
	f.Add("gelatine, silver", int64(27), int64(10), "leaf")
	f.Add("garlic", int64(5), int64(2), "clove")
	f.Add("butter", int64(1), int64(3), "cup")
	f.Add("bay leaves", int64(1), int64(7), "each")
	f.Fuzz(func(t *testing.T, item string, over, under int64, word string) {
		unit, ok := quantity.LookupUnit(word)
		if word == "each" {
			unit, ok = quantity.Each, true
		}
		if !ok || over <= 0 || under <= 0 {
			return
		}
		a := quantity.Amount{Qty: quantity.Frac(over, under), Unit: unit}
		text, aside := Show(item, a, Own{}, quantity.Prefs{})
		require.NotEmpty(t, text)
		require.True(t, utf8.ValidString(text+aside) || !utf8.ValidString(item))
		require.True(t, strings.ContainsFunc(text, unicode.IsNumber), "%q of %q", text, item)
		if n, ok := strings.CutPrefix(aside, "crack "); ok {
			var count quantity.Number
			require.NoError(t, count.UnmarshalText([]byte(n)))
			require.GreaterOrEqual(t, count.Cmp(a.Qty), 0)
		}
		gram, _ := quantity.LookupUnit("g")
		if grams, basis, err := Convert(item, a.Qty, unit, gram, Own{}); err == nil {
			back, _, err := Convert(item, grams, gram, unit, Own{})
			require.NoError(t, err)
			require.Zero(t, back.Cmp(a.Qty), "to grams and back, exactly")
			require.Equal(t, unit.Dim == quantity.Mass, basis == "", "a figure from a table says so")
		}
	})
}
