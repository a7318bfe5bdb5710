package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/quantity"
)

// What is typed in pounds and cups is bought so: exactly 10 lb stay 10 lb. Worked by hand.
func TestOrderInPoundsStaysExact(t *testing.T) {
	for in, want := range map[string]string{"10 lb": "10 lb", "10.001 lb": "10 lb ¼ oz", "2 cups": "2 cups", "1 ½ lb": "1 ½ lb", "3 imp pt": "3 imp pt"} {
		a, _, err := quantity.ParseAmount(in)
		require.NoError(t, err)
		l := Line{Need: []quantity.Amount{a}}
		assert.Equal(t, want, quantity.Show(roundUp(a), quantity.Prefs{AsTyped: true, Up: true}), in)
		assert.Equal(t, want, l.ShowNeed(quantity.Prefs{AsTyped: true}), in)
	}
}

// TestNeedIsNeverRoundedDown draws needs in every unit and system.
func TestNeedIsNeverRoundedDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit, _ := quantity.LookupUnit(rapid.SampledFrom([]string{"g", "kg", "ml", "L", "lb", "oz", "cup", "clove", "sprig", "imp pt"}).Draw(t, "unit"))
		a := quantity.Amount{Qty: quantity.Frac(rapid.Int64Range(100, 9_999_999).Draw(t, "over"), rapid.Int64Range(1, 999).Draw(t, "under")), Unit: unit}
		if a.Qty.Mul(unit.Factor).Cmp(quantity.Int(900_000)) > 0 {
			return
		}
		show := quantity.Prefs{System: rapid.SampledFrom([]quantity.System{quantity.Metric, quantity.US, quantity.Imperial}).Draw(t, "system"), Scale: quantity.Int(rapid.SampledFrom([]int64{1, 5}).Draw(t, "scale"))}
		l := Line{Name: rapid.SampledFrom([]string{"flour", "salt"}).Draw(t, "name"), Need: []quantity.Amount{a}}
		text := l.ShowNeed(show)
		var sum quantity.Number
		for rest := text; rest != ""; {
			part, more, err := quantity.ParseAmount(rest)
			if err != nil {
				t.Fatalf("%q can't be read back: %v", text, err)
			}
			sum, rest = sum.Add(part.Qty.Mul(part.Unit.Factor)), more
		}
		if sum.Cmp(a.Qty.Mul(unit.Factor)) < 0 {
			t.Fatalf("a need of %s %s is shown as %q", a.Qty.Decimal(4), unit.Name, text)
		}
	})
}
