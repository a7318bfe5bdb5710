package card

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

const stockInPots = `---
makes: 4 kg
---

# Light stock

## Formula

- 4 kg chicken backs
- 8 L water
- 2 bay leaves

## Method

1. Boil the **chicken backs** in the **water**.
   - hob: 1 ring
   - pot: 16 L
   - hands: 10 min
2. Add the **bay leaves** and boil down.
   - hob: 1 ring
   - pot: 16 L
   - hands: 10 min
   - until: 4 kg
3. Skim.
   - pot: 16 L
   - hands: 5 min
4. Cool.
   - tray: 50 × 40 cm, 1 cm deep
   - hands: 5 min
5. Blend.
   - blender: 2 L, half full
   - hands: 4 min
`

// TestVesselHoldsWhatStepsPutIn by hand: 4 kg and 8 L are 12 L, at 1 kg a litre where no
// density is known; boiled down to 4 kg it is 4 L; the trays take 50 × 40 × 1 cm, 2 L.
func TestVesselHoldsWhatStepsPutIn(t *testing.T) {
	c, problems := Parse("stock.md", []byte(stockInPots))
	require.Empty(t, problems)
	for _, tt := range []struct {
		step    int
		times   int64
		litres  float64
		vessels int
	}{
		{0, 1, 12, 1}, {0, 2, 24, 2}, {0, 3, 36, 3}, // 14.4 L go into one
		{1, 1, 12, 1}, {2, 2, 8, 1}, {3, 1, 4, 2}, {3, 2, 8, 4},
	} {
		f, ok := c.Fill(tt.step, 0, quantity.Int(tt.times))
		require.True(t, ok)
		assert.InDelta(t, tt.litres, f.Litres, 0.1, "step %d, %d times", tt.step+1, tt.times)
		assert.Equal(t, tt.vessels, f.Vessels, "step %d, %d times", tt.step+1, tt.times)
	}
	f, _ := c.Fill(0, 0, quantity.Int(1))
	assert.Equal(t, []string{"chicken backs"}, f.Assumed, "water's density is known")
	_, ok := c.Fill(4, 0, quantity.Int(1))
	assert.False(t, ok, "a machine is no vessel")
}

// TestMachineSizeIsItsLoad: half of 2 L is a load of 1 L; 4 kg of stock are 4 loads of 4
// minutes, and the step says that a litre was taken for a kilo.
func TestMachineSizeIsItsLoad(t *testing.T) {
	c, _ := Parse("stock.md", []byte(stockInPots))
	hands, _ := c.Time(&c.Steps[4], quantity.Int(1))
	assert.Equal(t, 16*60, hands.High)
	s := c.Scale(quantity.Int(1), 0, quantity.Prefs{})
	assert.Contains(t, s.Steps[4].Load, "1 L at a time, 4 loads")
	soup, _ := Parse("soup.md", []byte(strings.ReplaceAll(stockInPots, "Light stock", "Zest base")))
	assert.Equal(t, "1 L at a time, 4 loads (taken at 1 kg a litre)", soup.Scale(quantity.Int(1), 0, quantity.Prefs{}).Steps[4].Load)
	heavy, _ := Parse("syrup.md", []byte(strings.Replace(stockInPots, "makes: 4 kg", "makes: 4 kg\ndensity: 1.35", 1)))
	assert.Equal(t, 3, heavy.Loads(&heavy.Steps[4], quantity.Int(1)), "4 kg at 1.35 are 2.96 L")
}

// TestStoveSaysHowManyVessels: twice the card takes four trays, and the page writes that as
// an author would type it.
func TestStoveSaysHowManyVessels(t *testing.T) {
	c, _ := Parse("stock.md", []byte(stockInPots))
	s := c.Scale(quantity.Int(2), 0, quantity.Prefs{})
	assert.Contains(t, s.Facts(3), ShownFact{"tray", "4, 50 × 40 cm, 1 cm deep", "4 of 50 × 40 cm, 1 cm deep"})
	assert.Contains(t, s.Facts(2), ShownFact{"pot", "16 L", "16 L"})
}
