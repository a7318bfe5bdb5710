package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// What the readings do not tell has no time; what is over the limit counts on, by hand.
func TestReaching(t *testing.T) {
	poultry, _ := byID("fc_poultry_2017") // 74 °C, at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3), read
	two, _ := byID("uk_cook_70")          // 70 °C for 2 min: UK Food Standards Agency cooking advice, read
	cool, _ := byID("fc_cool_1")
	bath := WarmingInBoil()
	for _, tt := range []struct {
		name  string
		limit Limit
		log   []Reading
		in    Warming
		want  float64
		why   string
	}{
		{"over it since half a minute", two, []Reading{{0, 69}, {1, 71}}, bath, 1.5, ""},
		{"over it and falling in time", two, []Reading{{0, 80}, {1, 79}}, bath, 1, ""},
		{"over it and falling too fast", two, []Reading{{0, 75}, {1, 71}}, bath, 0, "it falls under the temperature before the time is over"},
		{"met", poultry, []Reading{{0, 74}}, bath, 0, ""},
		{"one reading", poultry, []Reading{{0, 60}}, bath, 0, "take a second reading to see when"},
		{"standing still", poultry, []Reading{{0, 60}, {5, 60}}, bath, 0, "it is not rising"},
		{"cooling", poultry, []Reading{{0, 60}, {5, 50}}, bath, 0, "it is not rising"},
		{"in a pan, whose heat nobody knows", poultry, []Reading{{0, 40}, {5, 50}}, Warming{}, 0, "the step gives no temperature that it is heated by, so no time can be worked out"},
		{"a bath too cold for it", poultry, []Reading{{0, 40}, {5, 50}}, Warming{59, 61}, 0, "too early to say when: read it again"},
		{"too early", poultry, []Reading{{0, 4}, {20, 6}}, Warming{100, 180}, 0, "too early to say when: read it again"},
		{"frozen at the start", poultry, []Reading{{0, -5}, {20, 6}}, Warming{100, 180}, 0, "the readings fit no even heating: read it again"},
		{"as no heating goes", poultry, []Reading{{0, 10}, {30, 60}, {60, 61}}, Warming{100, 180}, 0, "the readings fit no even heating: read it again"},
		{"no reading", poultry, nil, bath, 0, "no reading yet"},
		{"a limit of another kind", cool, []Reading{{0, 60}, {5, 50}}, bath, 0, "the limit has no temperature"},
	} {
		got := Reaching(tt.limit, tt.log, tt.in)
		assert.Equal(t, tt.why, got.Why, tt.name)
		assert.InDelta(t, tt.want, got.Minutes.Slow, 1e-9, tt.name)
		assert.InDelta(t, tt.want, got.Minutes.Quick, 1e-9, tt.name)
	}
	assert.NotEmpty(t, Reaching(poultry, []Reading{{5, 60}, {0, 70}}, bath).Why, "a clock that runs back")
}

// A core is food that heats in a steady medium, worked out by finite differences: another
// way than the series that forecasts are made with.
type core struct {
	thetas          []float64
	mediumC, startC float64
	minutesAStep    float64
}

// mostCore is the Fourier number up to which a core is worked out.
const mostCore = 4.0

// drawCore draws a piece of food that heats in a medium from low to high °C.
func drawCore(t *rapid.T, low, high float64) *core {
	s := rapid.SampledFrom([]shape{wall, cylinder, ball}).Draw(t, "shape")
	biot := math.Pow(10, rapid.Float64Range(-0.3, 1.3).Draw(t, "log Bi")) // 0.5 to 20
	c := &core{thetas: gridCourse(s, biot, mostCore, 16), mediumC: rapid.Float64Range(low, high).Draw(t, "medium"), startC: rapid.Float64Range(2, 24).Draw(t, "start")}
	c.minutesAStep = rapid.Float64Range(40, 500).Draw(t, "minutes a Fourier number") * mostCore / float64(len(c.thetas))
	return c
}

// at returns the core's temperature after so many minutes.
func (c *core) at(minute float64) float64 {
	i := min(len(c.thetas)-1, int(minute/c.minutesAStep))
	return c.mediumC + (c.startC-c.mediumC)*c.thetas[i]
}

// until returns the minute at which the core is at a temperature, −1 where it never is.
func (c *core) until(targetC float64) float64 {
	for i := range c.thetas {
		if c.mediumC+(c.startC-c.mediumC)*c.thetas[i] >= targetC {
			return float64(i) * c.minutesAStep
		}
	}
	return -1
}

// log draws readings, to a tenth, on the way to a temperature.
func (c *core) log(t *rapid.T, targetC float64) []Reading {
	end := c.until(targetC - 3)
	if end < 5 {
		end = c.minutesAStep * float64(len(c.thetas)) / 2
	}
	n := rapid.IntRange(2, 5).Draw(t, "readings")
	first := rapid.Float64Range(0, 0.7).Draw(t, "first") * end
	last := first + rapid.Float64Range(0.3, 1).Draw(t, "last")*(end-first)
	var out []Reading
	for i := range n {
		m := first + (last-first)*float64(i)/float64(n-1)
		out = append(out, Reading{m, math.Round(c.at(m)*10) / 10})
	}
	return out
}

// TestCoreGetsThereWithinTheBand: where there is a time, food worked out by finite
// differences gets there between the ends of the band (give or take 5 % and 2 min), and the
// straight line through the last two readings would be wrong by more in nearly every case.
func TestCoreGetsThereWithinTheBand(t *testing.T) {
	given, refused := 0, 0
	var lineError, bandError float64
	rapid.Check(t, func(t *rapid.T) {
		l, _ := byID(rapid.SampledFrom([]string{"fc_poultry_2017", "fc_whole"}).Draw(t, "limit"))
		low, high := 92.0, 100.0
		in := WarmingInBoil()
		if rapid.Bool().Draw(t, "oven") {
			high = rapid.Float64Range(160, 220).Draw(t, "oven °C")
			low, in = 100, WarmingIn("oven", high, true)
		}
		c := drawCore(t, low, high)
		l.HasTime = false
		log := c.log(t, l.TempC)
		truth := c.until(l.TempC)
		got := Reaching(l, log, in)
		if got.Why != "" || truth < 0 {
			refused++
			return
		}
		given++
		last := log[len(log)-1]
		left := truth - last.Minute
		if left < 0.95*got.Minutes.Quick-2 || left > 1.05*got.Minutes.Slow+2 {
			t.Fatalf("%v min were left, %+v said of %v, medium %v, start %v", left, got.Minutes, log, c.mediumC, c.startC)
		}
		before := log[len(log)-2]
		line := (l.TempC - last.TempC) / (last.TempC - before.TempC) * (last.Minute - before.Minute)
		lineError += math.Abs(line - left)
		bandError += math.Abs(got.Minutes.Mid - left)
	})
	t.Logf("%d times given, %d refused; off by %.1f min in the middle of the band, %.1f min by the straight line", given, refused, bandError/float64(given), lineError/float64(given))
	assert.Greater(t, given, refused/4, "nearly every log was refused")
	assert.Less(t, bandError, lineError/2)
}

func TestSift(t *testing.T) {
	texts := func(ds []Doubt) (out []string) {
		for _, d := range ds {
			out = append(out, d.Text)
		}
		return out
	}
	for _, tt := range []struct {
		name    string
		log     []Reading
		in      Expected
		counted int
		doubts  []string
		asC     float64
	}{
		{"a good log", []Reading{{0, 60}, {10, 65}}, Expected{}, 2, nil, 0},
		{"°F in the core", []Reading{{0, 60}, {10, 149}}, Expected{}, 1, []string{"the core of food can't be at 149 °C; if the probe shows °F that is 65 °C: enter it as °F"}, 65},
		{"no core at all", []Reading{{0, 400}}, Expected{}, 0, []string{"the core of food can't be at 400 °C; read the probe again"}, math.NaN()},
		{"colder than any freezer", []Reading{{0, -120}}, Expected{}, 0, []string{"−120 °C is colder than any freezer; read the probe again"}, math.NaN()},
		{"°F in the fridge", []Reading{{0, 12}, {30, 50}}, Expected{Falling: true}, 1, []string{"50 °C after 12 °C: did the probe show °F? That is 10 °C"}, 10},
		{"the same while it cooks", []Reading{{0, 12}, {30, 50}}, Expected{}, 2, nil, 0},
		{"°F said twice is so", []Reading{{0, 12}, {30, 50}, {31, 51}}, Expected{Falling: true}, 2, []string{"50 °C after 12 °C: did the probe show °F? That is 10 °C"}, 10},
		{"warmed again by much more", []Reading{{0, 12}, {30, 80}}, Expected{Falling: true}, 2, nil, 0},
		// By the reading before: 110 °F is 43.3 °C, 74 °F 23.3 °C, 63 °C entered as °F 17.2 °C.
		{"110 °F after 40 °C", []Reading{{0, 40}, {10, 110}}, Expected{HottestC: 92}, 1, []string{"110 °C after 40 °C: did the probe show °F? That is 43.3 °C"}, 43.333333333},
		{"74 °F after 20 °C", []Reading{{0, 20}, {10, 74}}, Expected{HottestC: 92}, 1, []string{"74 °C after 20 °C: did the probe show °F? That is 23.3 °C"}, 23.333333333},
		{"74 °C an hour after 20 °C", []Reading{{0, 20}, {60, 74}}, Expected{HottestC: 92}, 2, nil, 0},
		{"74 °F said twice is so", []Reading{{0, 20}, {10, 74}, {11, 75}}, Expected{HottestC: 92}, 2, []string{"74 °C after 20 °C: did the probe show °F? That is 23.3 °C"}, 23.333333333},
		{"°C entered as °F while it cooks", []Reading{{0, 60}, {10, (63 - 32) / 1.8}}, Expected{HottestC: 92}, 1, []string{"17.2 °C after 60 °C: did the probe show °C, and was °F entered? That is 63 °C"}, 63},
		{"°C entered as °F while it cools", []Reading{{0, 60}, {10, (55 - 32) / 1.8}}, Expected{Falling: true}, 1, []string{"12.8 °C after 60 °C: did the probe show °C, and was °F entered? That is 55 °C"}, 55},
		{"a quick fall in iced water", []Reading{{0, 60}, {20, 12.8}}, Expected{Falling: true}, 2, nil, 0},
		// By the oven, the bath and the food.
		{"98 in a roast", []Reading{{0, 98}}, Expected{HottestC: Hottest(Poultry, WarmingIn("oven", 180, true), false, 74)}, 0, []string{"98 °C is more than a core gets to here, about 92 °C: did the probe show °F? That is 36.7 °C"}, 36.666666667},
		{"80 first in a roast", []Reading{{0, 80}}, Expected{FirstC: Overshot(Lamb, false, 63)}, 0, []string{"80 °C at the first reading, far above the limit: did the probe show °F? That is 26.7 °C"}, 26.666666667},
		{"80 first in a roast, said twice", []Reading{{0, 80}, {1, 81}}, Expected{FirstC: Overshot(Lamb, false, 63)}, 1, []string{"80 °C at the first reading, far above the limit: did the probe show °F? That is 26.7 °C"}, 26.666666667},
		{"80 after 60 in a roast", []Reading{{0, 60}, {15, 80}}, Expected{FirstC: Overshot(Lamb, false, 63)}, 2, nil, 0},
		{"80 first in a braise", []Reading{{0, 80}}, Expected{FirstC: Overshot(Lamb, true, 63)}, 1, nil, 0},
		{"80 first in poultry", []Reading{{0, 80}}, Expected{FirstC: Overshot(Poultry, false, 74)}, 1, nil, 0},
		{"98 in a braise", []Reading{{0, 98}}, Expected{HottestC: Hottest(Lamb, WarmingIn("oven", 150, true), true, 75)}, 1, nil, 0},
		{"98 in bread", []Reading{{0, 98}}, Expected{HottestC: Hottest(NotKnown, WarmingIn("oven", 220, true), false, 96)}, 1, nil, 0},
		{"75 at the end of a roast", []Reading{{0, 75}}, Expected{HottestC: Hottest(Poultry, WarmingIn("oven", 180, true), false, 74)}, 1, nil, 0},
		{"90 in a fish", []Reading{{0, 90}}, Expected{HottestC: Hottest(Fish, Warming{}, false, 63)}, 0, []string{"90 °C is more than a core gets to here, about 85 °C: did the probe show °F? That is 32.2 °C"}, 32.222222222},
		{"warmer than the bath", []Reading{{0, 80}}, Expected{HottestC: Hottest(Beef, WarmingIn("water bath", 56, true), false, 54)}, 0, []string{"80 °C is more than a core gets to here, about 58 °C: did the probe show °F? That is 26.7 °C"}, 26.666666667},
		{"41 °F in the fridge", []Reading{{0, 41}}, Expected{Falling: true, ColdestC: 5}, 0, []string{"41 °C where it is kept at 5 °C at most: did the probe show °F? That is 5 °C"}, 5},
		{"12 °C in the fridge", []Reading{{0, 12}}, Expected{Falling: true, ColdestC: 5}, 1, nil, 0},
		{"from tomorrow", []Reading{{0, 60}, {2000, 61}}, Expected{}, 1, []string{"61 °C was read 31 h 40 min from now: a phone's clock was set; enter it again"}, math.NaN()},
		{"twice in one moment", []Reading{{5, 60}, {5, 61}}, Expected{}, 1, []string{"61 °C was read at the same moment as 60 °C: take one back"}, math.NaN()},
		{"out of order", []Reading{{10, 65}, {0, 60}}, Expected{}, 2, nil, 0},
		{"no time", []Reading{{math.NaN(), 65}}, Expected{}, 0, []string{"its time is not a number: enter it again"}, math.NaN()},
	} {
		t.Run(tt.name, func(t *testing.T) {
			counted, doubts := Sift(tt.log, 100, tt.in)
			assert.Len(t, counted, tt.counted)
			assert.Equal(t, tt.doubts, texts(doubts))
			if len(doubts) > 0 && !math.IsNaN(tt.asC) {
				assert.InDelta(t, tt.asC, doubts[0].AsC, 1e-8)
				assert.NotEmpty(t, doubts[0].Was)
			} else if len(doubts) > 0 {
				assert.True(t, math.IsNaN(doubts[0].AsC))
			}
		})
	}
}

// TestSiftedLogIsInOrderAndPlausible: whatever a log holds, what is counted of it is
// in order and plausible, and every reading is counted or asked about.
func TestSiftedLogIsInOrderAndPlausible(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		log := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Reading {
			return Reading{rapid.OneOf(rapid.Float64Range(-10, 300), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), 5, 5})).Draw(t, "minute"),
				rapid.OneOf(rapid.Float64Range(-300, 500), rapid.SampledFrom([]float64{math.NaN(), math.Inf(-1), 149})).Draw(t, "temp")}
		}), 0, 12).Draw(t, "log")
		counted, doubts := Sift(log, 200, Expected{Falling: rapid.Bool().Draw(t, "falling"),
			HottestC: rapid.SampledFrom([]float64{0, 92, 102}).Draw(t, "hottest"), ColdestC: rapid.SampledFrom([]float64{0, 5}).Draw(t, "coldest")})
		if err := checkLog(counted); err != nil {
			t.Fatal(err)
		}
		if len(counted)+len(doubts) != len(log) {
			t.Fatalf("%d readings became %d and %d doubts", len(log), len(counted), len(doubts))
		}
		require.NotContains(t, counted, Reading{math.NaN(), math.NaN()})
	})
}
