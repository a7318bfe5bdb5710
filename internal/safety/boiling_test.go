package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestBoilingAt(t *testing.T) {
	tests := []struct{ pascals, want, within float64 }{
		// IAPWS R7-97(2012), Table 36, read
		{0.1e6, 372.755919 - 273.15, 1e-6},
		{1e6, 453.035632 - 273.15, 1e-6},
		{10e6, 584.149488 - 273.15, 1e-6},
		// IAPWS-IF97, computed with another program
		{101325, 99.974, 0.0006}, {100e3, 99.606, 0.0006}, {95e3, 98.178, 0.0006}, {90e3, 96.687, 0.0006}, {85e3, 95.125, 0.0006},
		{80e3, 93.485, 0.0006}, {75e3, 91.758, 0.0006}, {70e3, 89.932, 0.0006}, {60e3, 85.926, 0.0006},
	}
	for _, tt := range tests {
		assert.InDelta(t, tt.want, boilingAt(tt.pascals), tt.within, "%v Pa", tt.pascals)
	}
}

func TestBoilingC(t *testing.T) {
	for m, want := range map[float64]float64{ // standard atmosphere and IF97, computed with another program
		300: 98.98, 500: 98.31, 1000: 96.65, 1500: 94.98, 2000: 93.32, 2500: 91.65, 3000: 89.98, 4000: 86.63,
	} {
		got, err := BoilingC(m)
		require.NoError(t, err)
		assert.InDelta(t, want, got, 0.006, "%v m", m)
	}
	for _, r := range []struct{ ft, publishedF, within float64 }{ // a published table (NOAA/NASA), read; it differs most high up
		{0, 212, 0.11}, {500, 211.1, 0.11}, {1000, 210.2, 0.11}, {2000, 208.4, 0.11}, {5000, 203, 0.11}, {6000, 201.1, 0.11}, {8000, 197.4, 0.11},
		{10000, 193.6, 0.11}, {12000, 189.8, 0.12}, {14000, 185.9, 0.24}, {15000, 184.1, 0.24},
	} {
		got, err := BoilingC(r.ft * 0.3048)
		require.NoError(t, err)
		assert.InDelta(t, FromF(r.publishedF), got, r.within, "%v ft", r.ft)
	}
	for _, bad := range []float64{math.NaN(), math.Inf(1), -1000, 20000} {
		_, err := BoilingC(bad)
		assert.Error(t, err)
	}
	rapid.Check(t, func(t *rapid.T) {
		low := rapid.Float64Range(-400, 8000).Draw(t, "m")
		a, _ := BoilingC(low)
		b, _ := BoilingC(low + rapid.Float64Range(1, 900).Draw(t, "higher by"))
		if b >= a {
			t.Fatalf("higher up it boils at %v, lower down at %v", b, a)
		}
	})
}
