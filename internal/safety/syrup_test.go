package safety

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestSyrupAt: NIST Circular 440 Table 114 and Starzak and Peacock, read, at
// every whole degree; between the rows kept here the lines are near enough.
func TestSyrupAt(t *testing.T) {
	for _, r := range rows(t, "syrup.csv") {
		s, err := SyrupAt(num(t, r["brix_percent"]))
		require.NoError(t, err)
		assert.InDelta(t, num(t, r["apparent_sg_20C"]), s.Gravity, 0.0002, "%v °Brix", s.Brix)
		if r["boiling_point_rise_K"] != "" {
			assert.InDelta(t, num(t, r["boiling_point_rise_K"]), s.RiseK, 1e-9, "%v °Brix", s.Brix)
		}
	}
	for _, bad := range []float64{-1, 96} {
		_, err := SyrupAt(bad)
		assert.Error(t, err)
	}
}

// TestSyrupBoiling: an older candy table (through GNU Units, read) gives 30 % at
// 100 °C and 40 % at 101 °C on a scale where water boils at 100 °C; it agrees
// with the equation within 1 K.
func TestSyrupBoiling(t *testing.T) {
	for boil, brix := range map[float64]float64{100: 30, 101: 40} {
		s, err := SyrupAt(brix)
		require.NoError(t, err)
		assert.InDelta(t, boil, 99.974+s.RiseK, 1)
	}
	_, err := SyrupBoiling(90, 0)
	assert.ErrorContains(t, err, "no syrup boils at 90 °C there: water boils at 100 °C")
	_, err = SyrupBoiling(150, 0)
	assert.Error(t, err)
	_, err = SyrupBoiling(100, 1e6)
	assert.Error(t, err)
	rapid.Check(t, func(t *rapid.T) {
		brix, m := rapid.Float64Range(1, 94).Draw(t, "brix"), rapid.Float64Range(0, 3000).Draw(t, "m")
		s, err := SyrupAt(brix)
		require.NoError(t, err)
		water, err := BoilingC(m)
		require.NoError(t, err)
		back, err := SyrupBoiling(water+s.RiseK, m)
		require.NoError(t, err)
		if d := back.Brix - brix; d > 1e-6 || d < -1e-6 {
			t.Fatalf("%v °Brix, there and back %v", brix, back.Brix)
		}
	})
}
