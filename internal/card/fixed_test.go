package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

const fritters = `---
makes: 40 pieces
---

# Fritters

## Formula

- 1 kg batter
- 2.5 kg sunflower oil, for frying, fixed

## Method

1. Heat **2 kg of the sunflower oil**.
   - hands: 5 min + 1 min per 1 kg
2. Top up with the **rest of the sunflower oil** and fry the **batter**.
   - hands: 10 min
`

// TestFixedAmountIsTheSameForAnyBatch: a fryer is filled once, for 8 pieces and for 120. The
// rest of the card follows the batch.
func TestFixedAmountIsTheSameForAnyBatch(t *testing.T) {
	c, problems := Parse("fritters.md", []byte(fritters))
	require.Empty(t, problems)
	for _, tt := range []struct {
		times  quantity.Number
		batter string
	}{{quantity.Frac(1, 5), "200 g"}, {quantity.Int(1), "1 kg"}, {quantity.Int(3), "3 kg"}} {
		s := c.Scale(tt.times, 0, quantity.Prefs{Scale: quantity.Int(1)})
		assert.Equal(t, tt.batter, s.Items[0].Amount)
		assert.Equal(t, "2.5 kg", s.Items[1].Amount)
		used, over := c.Uses(0, tt.times)
		assert.Empty(t, over)
		assert.Equal(t, "2", used[0][1].Amount.Qty.String(), "of 2.5 kg")
		assert.Equal(t, "1/2", used[1][1].Amount.Qty.String(), "what is left")
		hands, _ := c.Time(&c.Steps[0], tt.times)
		assert.Equal(t, 7*60, hands.High, "two kilos are heated, whatever the batch")
	}
	_, err := c.FactorToItem(2, "5 kg")
	assert.EqualError(t, err, "sunflower oil is fixed: a batch of any size takes 2.5 kg; scale by another item")
}
