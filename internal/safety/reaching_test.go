package safety

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The times are by hand, on straight lines.
func TestReaching(t *testing.T) {
	poultry, _ := byID("fc_poultry_2017") // 74 °C, at once: US FDA Food Code 2017, 2022, 3-401.11(A)(3), read
	two, _ := byID("uk_cook_70")          // 70 °C for 2 min: UK Food Standards Agency cooking advice, read
	cool, _ := byID("fc_cool_1")
	for _, tt := range []struct {
		name  string
		limit Limit
		log   []Reading
		want  float64
		ok    bool
	}{
		{"a kelvin a minute", poultry, []Reading{{0, 60}, {10, 70}}, 4, true},
		{"and two minutes at it", two, []Reading{{0, 60}, {8, 68}}, 4, true},
		{"over it since half a minute", two, []Reading{{0, 69}, {1, 71}}, 1.5, true},
		{"over it and falling in time", two, []Reading{{0, 80}, {1, 79}}, 1, true},
		{"over it and falling too fast", two, []Reading{{0, 75}, {1, 71}}, 0, false},
		{"met", poultry, []Reading{{0, 74}}, 0, true},
		{"one reading", poultry, []Reading{{0, 60}}, 0, false},
		{"standing still", poultry, []Reading{{0, 60}, {5, 60}}, 0, false},
		{"cooling", poultry, []Reading{{0, 60}, {5, 50}}, 0, false},
		{"no reading", poultry, nil, 0, false},
		{"a limit of another kind", cool, []Reading{{0, 60}, {5, 50}}, 0, false},
		{"a clock that runs back", poultry, []Reading{{5, 60}, {0, 70}}, 0, false},
	} {
		got, ok := Reaching(tt.limit, tt.log)
		assert.Equal(t, tt.ok, ok, tt.name)
		assert.InDelta(t, tt.want, got, 1e-9, tt.name)
	}
}

// TestLimitIsMetWhenReachingSays: a log that goes on at its rate for that long meets the limit,
// and does not a tenth of a minute sooner.
func TestLimitIsMetWhenReachingSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		id := rapid.SampledFrom([]string{"fc_poultry_2017", "uk_cook_70", "uk_cook_65", "fc_whole"}).Draw(t, "limit")
		l, _ := byID(id)
		a := rapid.Float64Range(10, 60).Draw(t, "from")
		slope := rapid.Float64Range(0.2, 3).Draw(t, "slope")
		log := []Reading{{0, a}, {5, a + 5*slope}}
		in, ok := Reaching(l, log)
		if !ok || in <= 0 {
			return
		}
		meets := func(after float64) bool {
			more := append([]Reading{}, log...)
			for m := 5.0; m < 5+after-5; m += 5 {
				more = append(more, Reading{m + 5, a + (m+5)*slope})
			}
			end := 5 + after
			if last := more[len(more)-1].Minute; last < end {
				more = append(more, Reading{end, a + end*slope})
			}
			held, err := Against([]Limit{l}, more)
			return err == nil && held[0].Met
		}
		if a+(5+in)*slope > 105 {
			return // past the boil: no probe shows it
		}
		if !meets(in + 1e-6) {
			t.Fatalf("not met after %v", in)
		}
		if in > 0.2 && meets(in-0.1) {
			t.Fatalf("met before %v", in)
		}
	})
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
		falling bool
		counted int
		doubts  []string
		asC     float64
	}{
		{"a good log", []Reading{{0, 60}, {10, 65}}, false, 2, nil, 0},
		{"°F in the core", []Reading{{0, 60}, {10, 149}}, false, 1, []string{"the core of food can't be at 149 °C; if the probe shows °F that is 65 °C: enter it as °F"}, 65},
		{"no core at all", []Reading{{0, 400}}, false, 0, []string{"the core of food can't be at 400 °C; read the probe again"}, math.NaN()},
		{"colder than any freezer", []Reading{{0, -120}}, false, 0, []string{"−120 °C is colder than any freezer; read the probe again"}, math.NaN()},
		{"°F in the fridge", []Reading{{0, 12}, {30, 50}}, true, 1, []string{"50 °C after 12 °C: did the probe show °F? That is 10 °C"}, 10},
		{"the same while it cooks", []Reading{{0, 12}, {30, 50}}, false, 2, nil, 0},
		{"°F said twice is so", []Reading{{0, 12}, {30, 50}, {31, 51}}, true, 2, []string{"50 °C after 12 °C: did the probe show °F? That is 10 °C"}, 10},
		{"warmed again by much more", []Reading{{0, 12}, {30, 80}}, true, 2, nil, 0},
		{"from tomorrow", []Reading{{0, 60}, {2000, 61}}, false, 1, []string{"61 °C was read 31 h 40 min from now: a phone's clock was set; enter it again"}, math.NaN()},
		{"twice in one moment", []Reading{{5, 60}, {5, 61}}, false, 1, []string{"61 °C was read at the same moment as 60 °C: take one back"}, math.NaN()},
		{"out of order", []Reading{{10, 65}, {0, 60}}, false, 2, nil, 0},
		{"no time", []Reading{{math.NaN(), 65}}, false, 0, []string{"its time is not a number: enter it again"}, math.NaN()},
	} {
		t.Run(tt.name, func(t *testing.T) {
			counted, doubts := Sift(tt.log, 100, tt.falling)
			assert.Len(t, counted, tt.counted)
			assert.Equal(t, tt.doubts, texts(doubts))
			if len(doubts) > 0 && !math.IsNaN(tt.asC) {
				assert.InDelta(t, tt.asC, doubts[0].AsC, 1e-9)
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
		counted, doubts := Sift(log, 200, rapid.Bool().Draw(t, "falling"))
		if err := checkLog(counted); err != nil {
			t.Fatal(err)
		}
		if len(counted)+len(doubts) != len(log) {
			t.Fatalf("%d readings became %d and %d doubts", len(log), len(counted), len(doubts))
		}
		require.NotContains(t, counted, Reading{math.NaN(), math.NaN()})
	})
}
