package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestLethalRates(t *testing.T) {
	// Dairy Science and Food Technology (Mullan), read: L at 110 °C, Tref 121.11 °C, z 10 K
	k := Kinetics{RefC: 121.11, Z: 10, LowC: 0, HighC: 200}
	assert.InDelta(t, 0.077, k.Rate(110), 0.0005)
	for _, r := range rows(t, "lethal_rates.csv") { // computed elsewhere: L = 10^((T-70)/7.5), 2 min at 70 °C for 6 log
		wide := Listeria
		wide.LowC = 55
		c := num(t, r["temp_C"])
		assert.InDelta(t, num(t, r["lethal_rate_vs_70C_z7p5"]), wide.Rate(c), 0.5e-4*math.Max(1, wide.Rate(c)), "%v °C", c)
		hold, ok := wide.holdMinutes(c)
		assert.True(t, ok)
		assert.InDelta(t, num(t, r["time_for_6log_min"]), hold, 0.00051, "%v °C", c)
	}
}

// TestHoldingTimesMatchPublishedOnes: each published pair of temperature and time against
// the model behind it.
func TestHoldingTimesMatchPublishedOnes(t *testing.T) {
	tests := []struct {
		k            Kinetics
		tempC        float64
		low, high    float64 // minutes the model may give
		published, s string
	}{
		// A lecture on thermal process calculation, read: D = 0.2 min at 121.1 °C, z 10 K, 12 D.
		{Kinetics{RefC: 121.1, Z: 10, D: 0.2, Logs: 12, HighC: 200}, 101.1, 239.9, 240.1, "4 h", "lecture L7"},
		{Kinetics{RefC: 121.1, Z: 10, D: 0.2, Logs: 12, HighC: 200}, 111.1, 23.99, 24.01, "24 min", "lecture L7"},
		{Kinetics{RefC: 121.1, Z: 10, D: 0.2, Logs: 12, HighC: 200}, 121.1, 2.399, 2.401, "2.4 min", "lecture L7"},
		{Kinetics{RefC: 121.1, Z: 10, D: 0.2, Logs: 12, HighC: 200}, 131.1, 0.239, 0.251, "15 s", "lecture L7"},
		{Kinetics{RefC: 121.1, Z: 10, D: 0.2, Logs: 12, HighC: 200}, 141.1, 0.0239, 0.0251, "1.5 s", "lecture L7"},
		// FSA cooking advice, read in secondary copies; rounded up by up to a fifth.
		{Listeria, 60, 45 * 0.8, 45, "45 min", "UK FSA"},
		{Listeria, 65, 10 * 0.8, 10, "10 min", "UK FSA"},
		{Listeria, 70, 2 * 0.999, 2 * 1.001, "2 min", "UK FSA"},
		{Listeria, 75, 0.5 * 0.8, 0.5, "30 s", "UK FSA"},
		{Listeria, 80, 0.1 * 0.8, 0.1, "6 s", "UK FSA"},
		// ACMSF 2007, read in a secondary copy.
		{STEC, 60, 92.5, 93.5, "93 min", "ACMSF 2007"},
		{STEC, 65, 13.5, 14.5, "14 min", "ACMSF 2007"},
		{STEC, 70, 1.999, 2.001, "2 min", "ACMSF 2007"},
	}
	for _, tt := range tests {
		got, ok := tt.k.holdMinutes(tt.tempC)
		require.True(t, ok)
		assert.True(t, got >= tt.low && got <= tt.high, "%s: %v °C: %v min, published %s", tt.s, tt.tempC, got, tt.published)
	}
}

// TestSalmonellaModelMatchesTable: USDA FSIS Appendix A, 6.5-log column, row by row.
// The fit is within a tenth; the published minutes are whole and the model
// starts at 54.4 °C.
func TestSalmonellaModelMatchesTable(t *testing.T) {
	n := 0
	for _, r := range rows(t, "fsis_appendix_a.csv") {
		published := num(t, r["t_6p5log_s"])
		if published == 0 {
			continue
		}
		c := FromF(num(t, r["temp_F"]))
		k := SalmonellaBeef
		k.LowC = 54.3 // 130 °F is 54.44 °C
		got, ok := k.holdMinutes(c)
		require.True(t, ok)
		assert.InEpsilon(t, published, got*60, 0.10, "%s °F", r["temp_F"])
		n++
	}
	assert.GreaterOrEqual(t, n, 27)
}

// TestLethalityOfAProfile: own example, recomputed by hand with trapezoids: every 2 min 50
// 58 64 68 70 71 70 66 58 50 °C gives 8.8085 min at 70 °C. Exact lines give
// less, and what is under 60 °C is not counted.
func TestLethalityOfAProfile(t *testing.T) {
	temps := []float64{50, 58, 64, 68, 70, 71, 70, 66, 58, 50}
	wide := Listeria
	wide.LowC = 0
	var log []Reading
	trapezoid := 0.0
	for i, c := range temps {
		log = append(log, Reading{float64(2 * i), c})
		if i > 0 {
			trapezoid += wide.Rate(c) + wide.Rate(temps[i-1])
		}
	}
	assert.InDelta(t, 8.8085, trapezoid, 0.0005)
	got, err := Lethality(wide, log)
	require.NoError(t, err)
	assert.Less(t, got.Minutes, trapezoid)
	assert.Greater(t, got.Minutes, trapezoid*0.9)
	assert.InDelta(t, got.Minutes*3, got.Logs, 1e-9)
	counted, err := Lethality(Listeria, log)
	require.NoError(t, err)
	assert.Less(t, counted.Minutes, got.Minutes)
	assert.Equal(t, 71.0, counted.MaxC)
	assert.Greater(t, counted.Share(), 1.0)
}

func TestImpossibleLogsAreRefused(t *testing.T) {
	tests := []struct {
		name string
		log  []Reading
		want string
	}{
		{"nothing", nil, "one reading has no length of time: log a second"},
		{"one", []Reading{{0, 60}}, "one reading has no length of time: log a second"},
		{"Fahrenheit", []Reading{{0, 60}, {1, 165}}, "reading 2: the core of food can't be at 165 °C; if the probe shows °F that is 73.9 °C: enter it as °F"},
		{"an oven", []Reading{{0, 240}, {1, 60}}, "reading 1: the core of food can't be at 240 °C; read the probe again"},
		{"too cold", []Reading{{0, -273}, {1, 60}}, "reading 1: −273 °C is colder than any freezer; read the probe again"},
		{"no number", []Reading{{0, 60}, {1, math.NaN()}}, "reading 2: no number; read the probe again"},
		{"a clock set back", []Reading{{5, 60}, {4, 61}}, "reading 2: it is not later than the one before; a clock was set, or one was logged twice: amend its time"},
		{"twice at once", []Reading{{5, 60}, {5, 61}}, "reading 2: it is not later than the one before; a clock was set, or one was logged twice: amend its time"},
		{"no time", []Reading{{math.Inf(1), 60}, {5, 61}}, "reading 1: its time is not a number"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			_, err := Lethality(Listeria, tt.log)
			require.EqualError(t, err, tt.want)
		})
	}
	assert.NoError(t, Plausible(101), "salt water boils over 100 °C")
	assert.Equal(t, 0.0, FromF(32))
}

func TestLongGapCountsTheColderEnd(t *testing.T) {
	got, err := Lethality(Listeria, []Reading{{0, 70}, {30, 62}, {31, 62}})
	require.NoError(t, err)
	assert.InDelta(t, 31*Listeria.Rate(62), got.Minutes, 1e-9)
	assert.Equal(t, []Reading{{30, 62}}, got.Gaps)
}

// drawLog draws a log with no long gap.
func drawLog(t *rapid.T) []Reading {
	n := rapid.IntRange(2, 12).Draw(t, "readings")
	log, at := make([]Reading, n), 0.0
	for i := range log {
		log[i] = Reading{at, rapid.Float64Range(0, 100).Draw(t, "°C")}
		at += rapid.Float64Range(0.1, LongGap-0.1).Draw(t, "gap")
	}
	return log
}

func drawKinetics(t *rapid.T) Kinetics {
	return rapid.SampledFrom([]Kinetics{Listeria, SalmonellaBeef, STEC}).Draw(t, "model")
}

// TestWarmerOrLongerNeverLowersLethality changes a log to warmer or longer: the
// lethality is never lower.
func TestWarmerOrLongerNeverLowersLethality(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, log := drawKinetics(t), drawLog(t)
		was, err := Lethality(k, log)
		require.NoError(t, err)
		warmer := append([]Reading{}, log...)
		i := rapid.IntRange(0, len(log)-1).Draw(t, "which")
		warmer[i].TempC = math.Min(100, warmer[i].TempC+rapid.Float64Range(0, 20).Draw(t, "warmer by"))
		up, err := Lethality(k, warmer)
		require.NoError(t, err)
		if up.Minutes < was.Minutes-1e-9*(1+was.Minutes) {
			t.Fatalf("warmer lowered it from %v to %v", was.Minutes, up.Minutes)
		}
		last := log[len(log)-1]
		more, err := Lethality(k, append(append([]Reading{}, log...), Reading{last.Minute + 1, rapid.Float64Range(0, 100).Draw(t, "next")}))
		require.NoError(t, err)
		if more.Minutes < was.Minutes {
			t.Fatalf("longer lowered it from %v to %v", was.Minutes, more.Minutes)
		}
	})
}

// TestMoreReadingsOnALineChangeNothing: a reading more on the line between two changes nothing.
func TestMoreReadingsOnALineChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, log := drawKinetics(t), drawLog(t)
		was, err := Lethality(k, log)
		require.NoError(t, err)
		i := rapid.IntRange(1, len(log)-1).Draw(t, "after")
		share := rapid.Float64Range(0.01, 0.99).Draw(t, "share")
		a, b := log[i-1], log[i]
		mid := Reading{a.Minute + share*(b.Minute-a.Minute), a.TempC + share*(b.TempC-a.TempC)}
		finer := append(append(append([]Reading{}, log[:i]...), mid), log[i:]...)
		got, err := Lethality(k, finer)
		require.NoError(t, err)
		if math.Abs(got.Minutes-was.Minutes) > 1e-6*(1+was.Minutes) {
			t.Fatalf("%v, and with one more on the line %v", was.Minutes, got.Minutes)
		}
	})
}

// TestTargetIsReachedWhenRemainingSays: log on in water by finite differences, and the target
// is reached between the ends of the band.
func TestTargetIsReachedWhenRemainingSays(t *testing.T) {
	given := 0
	rapid.Check(t, func(t *rapid.T) {
		k := drawKinetics(t)
		c := drawCore(t, 92, 100)
		log := c.log(t, k.LowC+5)
		left, err := Remaining(k, log, WarmingInBoil())
		require.NoError(t, err)
		if left.Ahead.Why != "" || left.Ahead.Minutes.Slow == 0 {
			return
		}
		given++
		last := log[len(log)-1].Minute
		for minute, reached := range map[float64]bool{0.95*left.Ahead.Minutes.Quick - 2: false, 1.05*left.Ahead.Minutes.Slow + 2: true} {
			on := append([]Reading{}, log...)
			for m := 0.5; m <= minute; m += 0.5 {
				on = append(on, Reading{last + m, c.at(last + m)})
			}
			got, err := Lethality(k, on)
			require.NoError(t, err)
			if (got.Logs >= k.Logs) != reached && minute > 0 {
				t.Fatalf("%+v promised of %+v; after %v min %v of %v logs", left.Ahead.Minutes, c, minute, got.Logs, k.Logs)
			}
		}
	})
	assert.Positive(t, given, "no forecast was given at all")
}

func TestRemaining(t *testing.T) {
	a, err := Remaining(Listeria, []Reading{{0, 70}, {1, 70}}, WarmingInBoil())
	require.NoError(t, err)
	assert.InDelta(t, 1, a.Holding, 1e-9)
	assert.Equal(t, "it is not rising", a.Ahead.Why)
	a, err = Remaining(Listeria, []Reading{{0, 70}, {2, 70}}, WarmingInBoil())
	require.NoError(t, err)
	assert.Equal(t, Left{}, a, "reached")
	a, err = Remaining(Listeria, []Reading{{0, 50}, {1, 40}}, WarmingInBoil())
	require.NoError(t, err)
	assert.True(t, math.IsNaN(a.Holding) && a.Ahead.Why != "", "cooling, and too cold to count")
	a, err = Remaining(Listeria, []Reading{{0, 50}, {5, 60}}, Warming{})
	require.NoError(t, err)
	assert.Contains(t, a.Ahead.Why, "gives no temperature")
	_, err = Remaining(Listeria, nil, Warming{})
	assert.Error(t, err)
}

func TestKineticsFor(t *testing.T) {
	k, ok := KineticsFor(US, Roast)
	assert.True(t, ok)
	assert.Equal(t, SalmonellaBeef, k)
	_, ok = KineticsFor(US, Poultry)
	assert.False(t, ok, "the beef table must not be used for poultry")
	k, ok = KineticsFor(UK, Poultry)
	assert.True(t, ok)
	assert.Equal(t, Listeria, k)
	k, _ = KineticsFor(UK, Minced)
	assert.Equal(t, STEC, k)
	_, ok = KineticsFor(UK, Stock)
	assert.False(t, ok)
	_, ok = Listeria.holdMinutes(59.9)
	assert.False(t, ok, "below what is published there is no number")
}
