package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestReduction: 20 kg of stock at 3 % solids down to 12 % is 5 kg; at 3 kW net
// that is 15 x 2256.5 / 3 = 11283 s after it boils (a mass and heat balance,
// computed; latent heat IAPWS-IF97).
func TestReduction(t *testing.T) {
	perMinute := 3.0 * 60 / 2256.5
	got, err := Reduction([]Weighing{{0, 20}, {30, 20 - 30*perMinute}}, 20*0.03/0.12, 0.01)
	require.NoError(t, err)
	assert.InDelta(t, 11283.0/60, got.Minute, 0.05)
	assert.InDelta(t, 4.786, got.KgPerH, 0.001)
	assert.Less(t, got.Early, got.Minute)
	assert.Greater(t, got.Late, got.Minute)
	assert.NotEmpty(t, got.Assumed)

	got, err = Reduction([]Weighing{{0, 10}, {10, 9.99}}, 5, 0.05)
	require.NoError(t, err)
	assert.True(t, math.IsInf(got.Late, 1), "two weights nearer than the scale can tell")

	got, err = Reduction([]Weighing{{0, 10}, {60, 4.9}}, 5, 0)
	require.NoError(t, err)
	assert.True(t, got.Already)
}

func TestImpossibleWeighingsAreRefused(t *testing.T) {
	tests := []struct {
		name   string
		log    []Weighing
		target float64
		want   string
	}{
		{"one", []Weighing{{0, 10}}, 5, "weigh again"},
		{"more than before", []Weighing{{0, 10}, {10, 11}}, 5, "has not lost weight since minute 0"},
		{"the same", []Weighing{{0, 10}, {10, 10}}, 5, "has not lost weight"},
		{"no pot", []Weighing{{0, 10}, {10, -1}}, 5, "weighing 2: a pot can't weigh -1 kg"},
		{"no number", []Weighing{{0, math.NaN()}, {10, 9}}, 5, "weighing 1"},
		{"clock", []Weighing{{10, 10}, {10, 9}}, 5, "not later"},
		{"target over", []Weighing{{0, 10}, {10, 9}}, 10, "under the first weight of 10 kg"},
		{"target nothing", []Weighing{{0, 10}, {10, 9}}, 0, "over 0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Reduction(tt.log, tt.target, 0)
			require.ErrorContains(t, err, tt.want)
		})
	}
}

// TestTrueTimeLiesInTheBand: the true time is in the band when the scale is no worse than
// it says, the ends of the band are in order, and more weighings on the line change
// nothing.
func TestTrueTimeLiesInTheBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		start, rate := rapid.Float64Range(1, 50).Draw(t, "kg"), rapid.Float64Range(0.005, 0.2).Draw(t, "kg a minute")
		read := rapid.Float64Range(0.001, 0.05).Draw(t, "scale")
		end := rapid.Float64Range(0.1, 0.9).Draw(t, "share left") * start
		target := rapid.Float64Range(0.1, 0.9).Draw(t, "share of that") * end
		minutes := (start - end) / rate
		off := func(l string) float64 { // the ends of what the scale can be wrong by matter most
			return read * rapid.SampledFrom([]float64{-1, -0.5, 0, 0.5, 1}).Draw(t, l)
		}
		got, err := Reduction([]Weighing{{0, start + off("first")}, {minutes, end + off("second")}}, target, read)
		if err != nil {
			return // the two weights came out the wrong way round, or under the target
		}
		truth := (start - target) / rate
		if got.Early > got.Minute || got.Late < got.Minute {
			t.Fatalf("a band of %v to %v about %v", got.Early, got.Late, got.Minute)
		}
		if !got.Already && (truth < got.Early-1e-6 || truth > got.Late+1e-6) {
			t.Fatalf("in truth %v, said %v to %v", truth, got.Early, got.Late)
		}
		exact, err := Reduction([]Weighing{{0, start}, {minutes / 3, start - rate*minutes/3}, {minutes, end}}, target, read)
		require.NoError(t, err)
		if math.Abs(exact.Minute-truth) > 1e-6*(1+truth) {
			t.Fatalf("in truth %v, said %v", truth, exact.Minute)
		}
	})
}
