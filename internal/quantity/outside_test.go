package quantity

import (
	"testing"

	general "github.com/bcicen/go-units"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// outside maps units to those of github.com/bcicen/go-units 1.0.5, a general library
// of physical units whose factors are floats.
var outside = map[string]general.Unit{
	"g": general.Gram, "kg": general.KiloGram, "mg": general.MilliGram, "oz": general.Ounce, "lb": general.Pound,
	"ml": general.MilliLiter, "cl": general.CentiLiter, "dl": general.DeciLiter, "L": general.Liter,
	"fl oz": general.CustomaryFluidOunce, "pt": general.FluidPint, "qt": general.FluidQuart, "gal": general.FluidGallon,
	"imp fl oz": general.FluidOunce, "imp pt": general.Pint, "imp qt": general.Quart, "imp gal": general.Gallon,
	"mm": general.MilliMeter, "cm": general.CentiMeter, "in": general.Inch,
}

func TestConvertMatchesAGeneralLibrary(t *testing.T) {
	var words []string
	for word := range outside {
		words = append(words, word)
	}
	for _, a := range words {
		for _, b := range words {
			if a == b {
				continue // the library does not convert a unit to itself
			}
			from, to := mustUnit(a), mustUnit(b)
			got, ok := Convert(Int(1), from, to)
			want, err := general.ConvertFloat(1, outside[a], outside[b])
			require.Equal(t, err == nil, ok, "%s to %s", a, b)
			if ok {
				assert.InEpsilon(t, want.Float(), got.Float64(), 1e-12, "%s to %s", a, b)
			}
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		c := rapid.Float64Range(-60, 400).Draw(t, "celsius")
		want := general.MustConvertFloat(c, general.Celsius, general.Fahrenheit).Float()
		if d := Fahrenheit(c) - want; d > 1e-9 || d < -1e-9 {
			t.Fatalf("%v °C is %v °F here, %v there", c, Fahrenheit(c), want)
		}
		if d := Celsius(want) - c; d > 1e-9 || d < -1e-9 {
			t.Fatalf("%v °C and back is %v", c, Celsius(want))
		}
	})
}
