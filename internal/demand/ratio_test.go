package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

func ratioCard(t *testing.T, items ...string) *card.Card {
	t.Helper()
	c, problems := card.Parse("c.md", []byte(made("makes: 1 kg", items...)))
	for _, f := range problems {
		require.NotEqual(t, document.Error, f.Severity, f.Error())
	}
	return c
}

// Percentages by hand. What a cup, an egg and a litre weigh: USDA SR28, as the
// food table has it.
func TestRatios(t *testing.T) {
	for _, tt := range []struct {
		why     string
		items   []string
		hundred []int
		want    []string
	}{
		{"baker's percentages: the flours are the hundred", []string{"900 g strong flour", "100 g rye flour", "680 g water", "20 g salt"}, nil, []string{"90", "10", "68", "2"}},
		{"a brine: salt on the water", []string{"2 L water", "160 g salt"}, []int{1}, []string{"100", "8"}},
		{"gelatine on the liquid for a set", []string{"300 g cream", "200 g milk", "5 leaves gelatine"}, []int{1, 2}, []string{"60", "40", "1.6"}}, // 8 g of 500
		{"the heaviest where nothing else is said", []string{"100 g sugar", "400 g strawberries"}, nil, []string{"25", "100"}},
		{"an egg by its weight", []string{"500 g plain flour", "2 eggs"}, nil, []string{"100", "20"}},
	} {
		ratios, _ := Ratios(ratioCard(t, tt.items...), tt.hundred)
		var got []string
		for _, r := range ratios {
			got = append(got, quantity.ShowNumber(r.Percent))
		}
		assert.Equal(t, tt.want, got, tt.why)
	}
}

func TestRatiosWithoutWeight(t *testing.T) {
	ratios, whole := Ratios(ratioCard(t, "500 g strong flour", "2 moonflowers", "salt, to taste", "1 cup moonflower paste"), nil)
	assert.Equal(t, "500", whole.String())
	assert.Contains(t, ratios[1].Why, "what one moonflowers weighs is not known")
	assert.Equal(t, "to taste", ratios[2].Why)
	assert.Contains(t, ratios[3].Why, "put \"density\" on the card")
	ratios, _ = Ratios(ratioCard(t, "2 moonflowers"), nil)
	assert.True(t, ratios[0].Percent.IsZero(), "a hundred of nothing known")
	ratios, _ = Ratios(ratioCard(t, "100 g salt"), []int{7, -1})
	assert.True(t, ratios[0].Percent.IsZero())
}

// The items at 100 % add up to 100 %, at any size of the batch.
func TestRatiosAreIndependentOfBatchSize(t *testing.T) {
	gram, _ := quantity.LookupUnit("g")
	rapid.Check(t, func(t *rapid.T) {
		c := &card.Card{}
		var hundred []int
		for i := range rapid.IntRange(1, 6).Draw(t, "items") {
			c.Items = append(c.Items, card.Item{Name: "x", Amount: quantity.Amount{Qty: quantity.Frac(rapid.Int64Range(1, 9999).Draw(t, "g"), rapid.Int64Range(1, 9).Draw(t, "of")), Unit: gram}})
			if rapid.Bool().Draw(t, "hundred") {
				hundred = append(hundred, i+1)
			}
		}
		ratios, whole := Ratios(c, hundred)
		var of, grams quantity.Number
		for _, r := range ratios {
			grams = grams.Add(r.Grams)
			if r.Hundred {
				of = of.Add(r.Percent)
			}
		}
		if of.Cmp(quantity.Int(100)) != 0 || grams.Cmp(whole) != 0 {
			t.Fatalf("the hundred is %s, the whole %s of %s", of, grams, whole)
		}
		for i := range c.Items {
			c.Items[i].Amount = c.Items[i].Amount.Scale(quantity.Frac(7, 3))
		}
		again, _ := Ratios(c, hundred)
		for i := range again {
			if again[i].Percent.Cmp(ratios[i].Percent) != 0 {
				t.Fatal("a larger batch has other percentages")
			}
		}
	})
}
