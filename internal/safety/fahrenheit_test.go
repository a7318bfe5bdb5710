package safety

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFahrenheitFiguresMatchPublishedRows compares the code's own figures in °F with the
// published rows, which name them in their notes: "165 F", "135 F to 70 F".
func TestFahrenheitFiguresMatchPublishedRows(t *testing.T) {
	figure := regexp.MustCompile(`(\d+) (?:F|to)\b`)
	checked := 0
	for _, r := range rows(t, "limits.csv") {
		l, ok := byID(r["id"])
		require.True(t, ok, r["id"])
		temps := []float64{l.TempC}
		if l.HasSpan {
			temps = []float64{l.FromC, l.ToC}
		}
		found := figure.FindAllStringSubmatch(r["food_or_case"]+" "+r["note"], -1)
		if l.Rules != US || len(found) < len(temps) || l.Old || !l.HasTemp && !l.HasSpan {
			continue
		}
		for i, c := range temps {
			assert.Equal(t, num(t, found[i][1]), l.InF(c), "%s: %v °C; %s", l.ID, c, r["note"])
			checked++
		}
	}
	assert.Greater(t, checked, 20)
	for _, r := range rows(t, "roast_table.csv") {
		l, ok := byID("fc_roast_" + r["temp_C"])
		require.True(t, ok)
		assert.Equal(t, num(t, r["temp_F"]), l.InF(l.TempC))
	}
	uk, _ := byID("uk_hot")
	assert.InDelta(t, 145.4, uk.InF(uk.TempC), 1e-9, "a code in °C alone: converted")
}

// TestEveryFigurePassesInBothUnits: a limit typed, or a probe read, at the figure of a
// rule in °F passes as at its figure in °C, in every kind of comparison; a degree to the
// wrong side does not. 165 °F is 73.9 °C, and the code writes it beside 74 °C.
func TestEveryFigurePassesInBothUnits(t *testing.T) {
	seen := map[Kind]int{}
	for _, l := range All() {
		for _, at := range []struct {
			unit                      string
			temp, from, to, oneColder float64
		}{
			{"°C", l.TempC, l.FromC, l.ToC, 1},
			{"°F", FromF(l.InF(l.TempC)), FromF(l.InF(l.FromC)), FromF(l.InF(l.ToC)), 5.0 / 9},
		} {
			name := l.ID + " in " + at.unit
			switch {
			case l.HasTemp && l.Bound == AtLeast && (l.Kind == CookTo || l.Kind == Reheat || l.Kind == HomeCook):
				seen[l.Kind]++
				for shift, met := range map[float64]bool{0: true, -at.oneColder - 0.2: false} {
					held, err := Against([]Limit{l}, []Reading{{0, at.temp + shift}, {l.Minutes, at.temp + shift}, {l.Minutes + 1, at.temp + shift}}[:])
					if l.Minutes == 0 {
						held, err = Against([]Limit{l}, []Reading{{0, at.temp + shift}})
					}
					require.NoError(t, err, name)
					assert.Equal(t, met, held[0].Met, "%s, %v K", name, shift)
					assert.Equal(t, l, held[0].Limit, "the limit is shown as the code has it")
				}
				assert.Empty(t, Reaching(l, []Reading{{0, at.temp}, {l.Minutes + 1, at.temp}}, Warming{}).Why, name)
			case l.HasTemp && (l.Kind == HoldHot || l.Kind == HoldCold || l.Kind == Thaw):
				seen[l.Kind]++
				wrong := at.oneColder + 0.3
				if l.Kind == HoldHot {
					wrong = -wrong
				}
				for shift, state := range map[float64]State{0: Met, wrong: Failed} {
					holds, err := Holding([]Limit{l}, []Reading{{0, at.temp + shift}, {5, at.temp + shift}})
					require.NoError(t, err, name)
					assert.Equal(t, state, holds[0].State, "%s, %v K", name, shift)
				}
			case l.Kind == Cool && l.HasSpan:
				seen[l.Kind]++
				for shift, state := range map[float64]State{0: Met, at.oneColder + 0.3: Running} {
					stages, err := Cooled([]Limit{l}, []Reading{{0, at.from}, {5, at.from - 1}, {10, at.to + shift}}, 10)
					require.NoError(t, err, name)
					assert.Equal(t, state, stages[0].State, "%s, %v K", name, shift)
				}
			}
		}
	}
	for kind, least := range map[Kind]int{CookTo: 60, Reheat: 8, HomeCook: 6, HoldHot: 6, HoldCold: 6, Thaw: 2, Cool: 12} {
		assert.GreaterOrEqual(t, seen[kind], least, kind)
	}
}

// TestCardMayTypeTheCodesFahrenheit: US FDA Food Code 3-401.11(A), read: 165 °F, 155 °F
// and 145 °F beside 74, 68 and 63 °C.
func TestCardMayTypeTheCodesFahrenheit(t *testing.T) {
	for item, f := range map[string]float64{"chicken breast": 165, "venison haunch": 165, "minced beef": 155, "salmon": 145, "eggs": 145, "scallops": 145, "pork chop": 145} {
		for shift, gaps := range map[float64]int{0: 0, -1: 1} {
			got := Gaps(US, []StepNeeds{{Items: []string{item}, Text: "Roast.", Core: []Core{{C: FromF(f + shift)}}}})
			assert.Len(t, got, gaps, "%s at %v °F", item, f+shift)
		}
	}
}
