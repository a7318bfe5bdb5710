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
		{"check: at most 5 °C", 0, false, ""},
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
		celsius, ok := c.Steps[0].CoreLimit()
		assert.Equal(t, tt.ok, ok, tt.fact)
		assert.InDelta(t, tt.celsius, celsius, 1e-9, tt.fact)
	}
}

// TestCoolIsReadWhole: what stands behind the time is a problem, never lost.
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
