package document

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestDoubtfulTimesAndTemperaturesAreRefused: three digits behind a comma or point may be
// decimals or thousands, in the second figure of a range too.
func TestDoubtfulTimesAndTemperaturesAreRefused(t *testing.T) {
	for _, typed := range []string{"core 63,000 °C", "1,800 F", "oven 1.800 °C", "118,500 C on the thermometer"} {
		_, ok := Temperature(typed)
		assert.False(t, ok, typed)
		_, ok = ParseTemperature(strings.TrimPrefix(typed, "core "), "°C")
		assert.False(t, ok, typed)
	}
	for _, typed := range []string{"1,500 s", "4–4,500 s", "10-10,500 s", "1 h 1,500 s"} {
		_, _, _, what := CutTime(typed)
		assert.Contains(t, what, "can be read as", typed)
	}
	for typed, want := range map[string]float64{"core 63,5 °C": 63.5, "63.25 °C": 63.25, "0,500 °C": 0.5} {
		c, ok := Temperature(typed)
		assert.True(t, ok, typed)
		assert.InDelta(t, want, c, 1e-9, typed)
	}
}
