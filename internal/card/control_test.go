package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// stepWith writes a card of one step with one fact.
func stepWith(fact string) string {
	return "---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n- 1 kg chicken\n\n## Method\n\n1. Roast the **chicken**.\n   - hands: 5 min\n   - " + fact + "\n"
}

// The figures in °F and °C are exact by definition: 165 °F is 73.9 °C.
func TestControlPoints(t *testing.T) {
	for _, tt := range []struct {
		fact    string
		celsius float64
		ok      bool
		problem string
	}{
		{"check: core 74 °C", 74, true, ""},
		{"check: core 165 °F", 73.88888888888889, true, ""},
		{"check: 75 °C", 75, true, ""},
		{"until: core 63 °C", 63, true, ""},
		{"check: core 165 °C", 0, false, `a.md:15:13: no core gets to 165 °C; 165 °F is 74 °C; write "core 74 °C" if that is meant`},
		{"until: core 145 °C", 0, false, `a.md:15:13: no core gets to 145 °C; 145 °F is 63 °C; write "core 63 °C" if that is meant`},
		{"check: core 400 °C", 0, false, `a.md:15:13: no core gets to 400 °C; check the figure and its unit`},
		{"check: core 74", 0, false, `a.md:15:13: "core 74" gives no temperature; write it with its unit, like "check: core 74 °C"`},
		{"check: oil 180 °C", 0, false, ""},
		{"check: skin 74 °C", 0, false, ""},
		{"check: the skin at 90 °C", 0, false, ""},
		{"check: crust 95 °C", 0, false, ""},
		{"check: hot cupboard 63 °C", 0, false, ""},
		{"check: skin 90 °C, core 74 °C", 74, true, ""},
		{"check: skin crisp, core 74 °C", 74, true, ""},
		{"check: core 74 °C and skin 90 °C", 74, true, ""},
		{"check: core 74 °C, not the pan", 74, true, ""},
		{"check: thigh 74 °C, skin on", 74, true, ""},
		{"check: 74 °C in the thickest part", 74, true, ""},
		{"check: at most 5 °C", 0, false, ""},
		{"check: under 12 °C", 0, false, ""},
		{"check: below 12 °C", 0, false, ""},
		{"check: core 74 °C under the wing", 74, true, ""},
		{"check: core 74 °C, below the skin", 74, true, ""},
		{"check: the label of the batch", 0, false, ""},
	} {
		c, problems := Parse("a.md", []byte(stepWith(tt.fact)))
		var got []string
		for _, p := range problems {
			got = append(got, p.Error())
		}
		if tt.problem == "" {
			assert.Empty(t, got, tt.fact)
		} else {
			assert.Contains(t, got, tt.problem, tt.fact)
		}
		limits := c.Steps[0].CoreLimits()
		if assert.Equal(t, tt.ok, len(limits) == 1, tt.fact) && tt.ok {
			assert.InDelta(t, tt.celsius, limits[0].C, 1e-9, tt.fact)
		}
	}
}

// TestHoldingTimeOfACoreIsRead: how long a core is held counts with its temperature, in
// every writing; a figure that is no time is a problem.
func TestHoldingTimeOfACoreIsRead(t *testing.T) {
	for value, seconds := range map[string]int{
		"core 57 °C for 36 min": 2160, "core 135 °F for 36 minutes": 2160, "core 57 °C, 36 min": 2160, "core 57 °C (36 min)": 2160, "core 57 °C held for 36 min": 2160,
		"core 57 °C, held 36 min": 2160, "core 57 °C / 36 min": 2160, "core 57 °C 36 min": 2160, "core 57C 36 min": 2160, "core 57 °C × 36 min": 2160, "core 57 °C and hold for 36 min": 2160,
		"core 57 °C (135 °F) for 36 min": 2160, "core 130 °F for 1 h 52 min": 6720, "core 63 °C for 15 s": 15, "core 57 °C for at least 36 min": 2160, "core 57 °C for about 36 min": 2160,
		"core 57 °C for 36–40 min": 2160, "core 66 °C for ½ min": 30, "core 57–60 °C for 36 min": 2160,
		"core 74 °C": 0, "core 74 °C (165 °F)": 0, "core 74 °C within 2 h": 0, "core 74 °C after 20 min": 0, "core 74 °C, rest 10 min": 0, "core 74 °C, in 2 places": 0, "core 74 °C, 2 places": 0,
		"core 74 °C for the thickest": 0,
	} {
		for _, word := range []string{"check", "until"} {
			c, problems := Parse("a.md", []byte(stepWith(word+": "+value)))
			require.Empty(t, problems, value)
			require.Len(t, c.Steps[0].CoreLimits(), 1, value)
			assert.Equal(t, seconds, c.Steps[0].CoreLimits()[0].For, "%s: %s", word, value)
		}
	}
	c, _ := Parse("a.md", []byte(stepWith("check: hold 36 min at core 57 °C")))
	assert.Equal(t, []CoreLimit{{57, 2160}}, c.Steps[0].CoreLimits())
	for _, value := range []string{"core 57 °C for 36", "core 57 °C held for 36"} {
		for _, word := range []string{"check", "until"} {
			_, problems := Parse("a.md", []byte(stepWith(word+": "+value)))
			if assert.Len(t, problems, 1, value) {
				assert.Equal(t, `a.md:15:13: "`+value+`" gives no time that it is held; write it with its unit, like "check: core 60 °C for 12 min"`, problems[0].Error())
			}
		}
	}
}

// TestCoolIsReadWhole: what follows the time is a problem, never lost.
func TestCoolIsReadWhole(t *testing.T) {
	for fact, want := range map[string]Cool{
		"cool: 5 °C within 6 h":        {ToC: 5, Within: 6 * 3600, Set: true},
		"cool: 8 °C within 1 h 30 min": {ToC: 8, Within: 90 * 60, Set: true},
		"cool: to 41 °F in 4 h":        {ToC: 5, Within: 4 * 3600, Set: true},
		"cool: 21 °C":                  {ToC: 21, Set: true},
		"cool: 5 °C within 90 min":     {ToC: 5, Within: 90 * 60, Set: true},
		"cool: 21 °C within 2 hours":   {ToC: 21, Within: 2 * 3600, Set: true},
	} {
		c, problems := Parse("a.md", []byte(stepWith(fact)))
		require.Empty(t, problems, fact)
		assert.Equal(t, want, c.Steps[0].Cool, fact)
	}
	for fact, want := range map[string]string{
		"cool: 5 °C within 6 h in trays": `a.md:15:12: "in trays" behind the time is not read; write "cool: 5 °C within 6 h" and put the rest in the words of the step`,
		"cool: 5 °C within 6":            `a.md:15:12: "5 °C within 6" gives no time; write it like "cool: 5 °C within 6 h"`,
		"cool: 41 °C within 4 h":         `a.md:15:12: warning: cooled to 41 °C only; 41 °F is 5 °C; write "cool: 5 °C within 6 h" if that is meant`, // exact by definition
		"cool: cold":                     `a.md:15:12: "cold" gives no temperature; write it like "cool: 5 °C within 6 h"`,
	} {
		_, problems := Parse("a.md", []byte(stepWith(fact)))
		require.Len(t, problems, 1, fact)
		assert.Equal(t, want, problems[0].Error())
	}
}

// A highest temperature is no limit that raw food is cooked to.
func TestHighestTemperatureIsNoLowestOne(t *testing.T) {
	for _, words := range []string{"core < 80 °C", "core ≤ 80 °C", "core up to 75 °C", "core no more than 76 °C", "not above core 74 °C", "core not above 74 °C",
		"core never over 74 °C", "core no hotter than 74 °C", "core 74 °C max", "core max 74 °C", "core less than 74 °C", "core must not exceed 74 °C", "core 74 °C or less", "core below 74 °C", "core at most 74 °C"} {
		assert.True(t, Check{Words: words, HasC: true, MinC: 74}.AtMost(), words)
	}
	for _, words := range []string{"core 74 °C", "core above 74 °C", "core over 74 °C", "core 74 °C under the wing", "core 74 °C or above", "core 74 °C for no less than 2 min", "core 74 °C, not the pan above"} {
		assert.False(t, Check{Words: words, HasC: true, MinC: 74}.AtMost(), words)
	}
}
