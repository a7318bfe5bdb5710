package safety

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestDoubtfulFiguresOfAVesselAreRefused: a figure with three digits behind its comma or
// point may be a thousand times another, and a forecast with the wrong one looks well. The
// rule is that of package quantity, which has its own tests; kilograms and litres have
// three decimals on a scale.
func TestDoubtfulFiguresOfAVesselAreRefused(t *testing.T) {
	for in, want := range map[string]string{
		"stock, 2,000 g, 5 cm deep, fridge":   `"2,000 g" can be read as 2000 g or as 2 g`,
		"stock, 2.000 g, 5 cm deep, fridge":   `"2.000 g" can be read as 2000 g or as 2 g`,
		"stock, 1,500 ml, 5 cm deep":          `"1,500 ml" can be read as 1500 ml or as 1.5 ml`,
		"2 kg stock, 1,200 mm across":         "can be read as",
		"2 kg stock in a 53,000 × 33 cm tray": "can be read as",
		"2 kg stock in a 53 × 33,000 cm tray": "can be read as",
		"stock from 85,000 °C":                "can be read as",
		"stock in the fridge at 4,000 °C":     "can be read as",
		"stock, 20,000,000 g":                 "is not understood",
		"stock, 1,000,5 g":                    "is not understood",
		"stock, 2,000, 5 cm deep":             "can be read as",
	} {
		_, err := ParseVessel(in)
		if assert.Error(t, err, in) {
			assert.Contains(t, err.Error(), want, in)
		}
	}
	for in, kg := range map[string]float64{
		"stock, 2,5 kg": 2.5, "stock, 2.500 kg": 2.5, "stock, 2,500 kg": 2.5, "stock, 0,500 g": 0.0005, "stock, 1,250 L": 1.25,
		"stock, 2000 g, thin": 2, "2 kg 500 g stock": 2.5, "5 lb 8 oz stock": 5.5 * 0.45359237, // the pound by definition
	} {
		v, err := ParseVessel(in)
		require.NoError(t, err, in)
		assert.InDelta(t, kg, v.Kg, 1e-12, in)
	}
	for _, in := range []string{"85,000", "1.500 F", "4,000 °C"} {
		_, _, ok := ParseDegrees(in)
		assert.False(t, ok, in)
	}
}

// TestNoFigureOfAVesselIsReadInTwoWays puts a figure with three digits behind a mark in
// each place of a sentence.
func TestNoFigureOfAVesselIsReadInTwoWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := fmt.Sprintf("%d%s%03d", rapid.IntRange(1, 99).Draw(t, "head"), rapid.SampledFrom([]string{",", "."}).Draw(t, "mark"), rapid.IntRange(0, 999).Draw(t, "tail"))
		place := rapid.SampledFrom([]string{"%s g", "%s ml", "%s oz", "%s mm deep", "%s cm across", "%s × 33 cm", "53 × %s cm", "from %s °C", "from %s F", "fridge at %s C", "bench at %s"}).Draw(t, "place")
		if v, err := ParseVessel("stock, " + fmt.Sprintf(place, figure)); err == nil {
			t.Fatalf("%s in %q is read as %+v", figure, place, v)
		}
	})
}
