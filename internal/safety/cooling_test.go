package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestCooledStages: US FDA Food Code 3-501.14(A): 57 to 21 °C in 2 h, and to 5 °C in 6 h
// counted from 57 °C, not 2 h and then 4 fresh ones.
func TestCooledStages(t *testing.T) {
	tests := []struct {
		name  string
		log   []Reading
		now   float64
		one   State
		two   State
		oneTk float64 // minutes the first took; NaN: does not count
		twoTk float64
		left  float64 // minutes left of the second
	}{
		{name: "both met", log: dense(57, 0, 21, 100, 5, 300), one: Met, two: Met, oneTk: 100, twoTk: 300},
		{name: "to the minute", log: dense(57, 0, 21, 120, 5, 360), one: Met, two: Met, oneTk: 120, twoTk: 360},
		{name: "the first too slow, the second in time", log: dense(57, 0, 21, 130, 5, 350), one: Failed, two: Met, oneTk: 130, twoTk: 350},
		{name: "6 h, not 2 and 4 more: 1 h + 5 h 30 fails", log: dense(57, 0, 21, 60, 5, 390), one: Met, two: Failed, oneTk: 60, twoTk: 390},
		{name: "1 h + 4 h 50 is met, though over 4 h", log: dense(57, 0, 21, 60, 5, 350), one: Met, two: Met, oneTk: 60, twoTk: 350},
		{name: "the clock starts when it leaves 57, not at the first reading", log: append(dense(90, 0, 57, 60), dense(57, 65, 21, 165, 5, 365)...), one: Met, two: Met, oneTk: 100, twoTk: 300},
		{name: "still hot", log: []Reading{{0, 90}, {10, 80}}, one: NotBegun, two: NotBegun, oneTk: math.NaN(), twoTk: math.NaN()},
		{name: "on the way", log: dense(57, 0, 30, 60), now: 70, one: Running, two: Running, oneTk: math.NaN(), twoTk: math.NaN(), left: 290},
		{name: "nobody has looked for too long", log: dense(57, 0, 30, 60), now: 121, one: Failed, two: Running, oneTk: math.NaN(), twoTk: math.NaN(), left: 239},
		{name: "the log began too late to tell", log: dense(40, 0, 21, 30, 5, 100), one: NotJudged, two: NotJudged, oneTk: 30, twoTk: 100},
		{name: "too late, and too slow all the same", log: dense(40, 0, 21, 130, 5, 400), one: Failed, two: Failed, oneTk: 129.2, twoTk: 400},
		{name: "warmed again, the clock starts again", log: append(dense(57, 0, 30, 60), dense(70, 70, 21, 170, 5, 370)...), one: Met, two: Met, oneTk: math.NaN(), twoTk: math.NaN()},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got, err := Cooled(CoolingRules(US), tt.log, tt.now)
			require.NoError(t, err)
			require.Len(t, got, 2)
			assert.Equal(t, tt.one, got[0].State, "%+v", got[0])
			assert.Equal(t, tt.two, got[1].State, "%+v", got[1])
			if !math.IsNaN(tt.oneTk) {
				assert.InDelta(t, tt.oneTk, got[0].Took.Mid, 0.5)
			}
			if !math.IsNaN(tt.twoTk) {
				assert.InDelta(t, tt.twoTk, got[1].Took.Mid, 0.5)
			}
			if tt.left > 0 {
				assert.InDelta(t, tt.left, got[1].Left, 0.5)
				assert.Equal(t, Running, got[1].State)
			}
		})
	}
	_, err := Cooled(CoolingRules(US), nil, 0)
	assert.Error(t, err)
	_, err = Cooled(CoolingRules(US), []Reading{{0, 135}}, 0)
	assert.ErrorContains(t, err, "°F that is 57.2 °C")
	uk, err := Cooled(CoolingRules(UK), []Reading{{0, 57}, {10, 8}}, 0)
	require.NoError(t, err)
	assert.Equal(t, NotJudged, uk[0].State, "no temperature to judge by")
	gap, err := Cooled(CoolingRules(US), []Reading{{0, 90}, {60, 50}, {130, 20}}, 0)
	require.NoError(t, err)
	assert.Equal(t, Failed, gap[0].State, "in a long gap it may have passed 57 °C at once and 21 °C at last: 130 min")
}

// dense logs straight lines every 5 minutes: temperature, minute, in pairs.
func dense(pairs ...float64) []Reading {
	out := []Reading{{pairs[1], pairs[0]}}
	for i := 2; i < len(pairs); i += 2 {
		c0, m0, c1, m1 := pairs[i-2], pairs[i-1], pairs[i], pairs[i+1]
		for m := m0 + 5; m < m1; m += 5 {
			out = append(out, Reading{m, c0 + (c1-c0)*(m-m0)/(m1-m0)})
		}
		out = append(out, Reading{m1, c1})
	}
	return out
}

// TestSlowerCoolingMeetsNoMoreLimits stretches the clock of a log: no limit
// becomes met that was not met before.
func TestSlowerCoolingMeetsNoMoreLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		one := rapid.Float64Range(20, 150).Draw(t, "to 21")
		two := one + rapid.Float64Range(20, 300).Draw(t, "to 5")
		k := rapid.Float64Range(1, 2).Draw(t, "slower")
		a, err := Cooled(CoolingRules(US), dense(60, 0, 21, one, 4, two), 0)
		require.NoError(t, err)
		b, err := Cooled(CoolingRules(US), dense(60, 0, 21, one*k, 4, two*k), 0)
		require.NoError(t, err)
		for i := range a {
			if b[i].State == Met && a[i].State != Met {
				t.Fatalf("%+v, and slower: %+v", a[i], b[i])
			}
		}
	})
}

func TestBandString(t *testing.T) {
	assert.Equal(t, "1 h 40 min", Band{100, 100, 100}.String())
	assert.Equal(t, "1 h to 2 h 10 min", Band{130, 90, 60}.String())
	assert.Equal(t, "2 h to never", Band{math.Inf(1), 200, 120}.String())
}
