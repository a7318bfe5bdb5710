package quantity

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestWeightIsAskedInTheUnitOfTheScale checks the unit of an amount against the
// cook's system. Common practice, no source.
func TestWeightIsAskedInTheUnitOfTheScale(t *testing.T) {
	for _, tt := range []struct {
		amount  string
		qty     int64
		unit    string
		system  System
		asTyped bool
		want    string
	}{
		{"under a kilogram", 999, "g", Metric, false, "g"},
		{"a kilogram", 1, "kg", Metric, false, "kg"},
		{"under a pound", 15, "oz", US, false, "oz"},
		{"a pound", 1, "lb", US, false, "lb"},
		{"a kilogram in a US kitchen", 1, "kg", US, false, "lb"},
		{"a pound in a metric kitchen", 1, "lb", Metric, false, "g"},
		{"a pound as typed", 1, "lb", Metric, true, "lb"},
		{"under a litre", 500, "ml", Metric, false, "ml"},
		{"a litre", 1, "L", Metric, false, "L"},
	} {
		t.Run(tt.amount, func(t *testing.T) {
			unit, ok := LookupUnit(tt.unit)
			require.True(t, ok)
			got := UnitToAsk(Amount{Qty: Int(tt.qty), Unit: unit}, Prefs{System: tt.system, AsTyped: tt.asTyped})
			assert.Equal(t, tt.want, got)
			_, ok = LookupUnit(got)
			assert.True(t, ok, "an event may name it")
		})
	}
}
