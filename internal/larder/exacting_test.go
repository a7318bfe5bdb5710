package larder

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"hobside/internal/quantity"
)

// Goods that are weighed to the per cent, and others: common practice, no source.
func TestExactingGoods(t *testing.T) {
	for _, item := range []string{"salt, fine", "curing salt with nitrite", "dried yeast", "leaf gelatine", "agar", "baking powder", "bicarbonate of soda", "xanthan gum", "pectin"} {
		assert.True(t, Exacting(item), item)
	}
	for _, item := range []string{"flour", "unsalted butter", "salted butter", "saffron", "beef, cured with salt", ""} {
		assert.False(t, Exacting(item), item)
	}
}

// 3.75 g is 0.13 oz: a quarter of an ounce is 89 % more. Worked by hand.
func TestExactingGoodsAreShownToThePerCent(t *testing.T) {
	gram, _ := quantity.LookupUnit("g")
	for item, want := range map[string]string{"curing salt with nitrite": "3.75 g", "saffron": "3.8 g"} {
		text, _ := Show(item, quantity.Amount{Qty: quantity.Frac(375, 100), Unit: gram}, Own{}, quantity.Prefs{System: quantity.US})
		assert.Equal(t, want, text, item)
	}
}
