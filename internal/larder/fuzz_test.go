package larder

import (
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// FuzzFind looks up any text in the food table. A food is found only when one of
// its names is in the text word for word and every other word there is one of
// the adjectives that change nothing, so that coconut milk is never milk.
func FuzzFind(f *testing.F) {
	for _, s := range []string{"large red onions, sliced", "coconut milk", "free-range eggs", "shallots (banana)", "the some any", "", ",", "(", "Ripe TOMATOES", "leaves", "s",
		"crème fraîche", "any butter", "\xff butter", "finely grated fresh parmesan", "ies", "gelatine leaves"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, item string) {
		food, ok := Find(item)
		require.Equal(t, ok, food != nil)
		a, assessed := Assess(item)
		require.True(t, assessed || a.EU == nil && a.US == nil, "what is not assessed carries nothing")
		cooked, _ := CookedYield(item, "boil, roast, stew")
		require.LessOrEqual(t, cooked.Low.Cmp(cooked.High), 0)
		if !ok {
			return
		}
		before, _, _ := strings.Cut(item, ",")
		before, _, _ = strings.Cut(before, "(")
		words := strings.Fields(singular(before))
		typed := strings.Fields(strings.ToLower(before))
		require.Len(t, words, len(typed))
		named := false
		for from := range words {
			for to := from + 1; to <= len(words); to++ {
				if byName[strings.Join(words[from:to], " ")] != food {
					continue
				}
				rest := append(append([]string{}, typed[:from]...), typed[to:]...)
				onlyAdjectives := true
				for _, w := range rest {
					onlyAdjectives = onlyAdjectives && adjectives[w]
				}
				named = named || onlyAdjectives
			}
		}
		require.True(t, named, "%q is taken for %s", item, food.Name)
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
