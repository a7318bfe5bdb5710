package card

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/quantity"
)

const served = "---\nmakes: 1 kg\n---\n\n# Base\n\n## Formula\n\n- 1 kg leeks\n\n## Method\n\n1. Sweat the **leeks**.\n   - hands: 5 min\n   - check: core 75 °C\n2. Cool them.\n   - hands: 5 min\n   - cool: 8 °C within 1 h\n"

// TestNothingInServiceAndFaultsGoesByInSilence: each line below these headings is kept by
// the card or has a problem, however it was typed.
func TestNothingInServiceAndFaultsGoesByInSilence(t *testing.T) {
	forms := []string{"- station: %s", "- portion tool: %s", "- container: %s", "- step 1: %s: stir", "- core: %s", "- %s: stir", "- step 2: %s", "- %s", "%s", "### %s", "> %s",
		"1. label: %s", "- - %s", "  - %s: x", "    %s", "| %s |", "<p>%s</p>", "- ![%s](a.png)", "![%s](data:image/png;base64,AA)", "```\n%s\n```", "- label:\n  %s", "station: %s", "* %s: y", "[%s]: sauce", "[station]: %s", "- ![a](b) %s"}
	rapid.Check(t, func(t *rapid.T) {
		text := served + "\n## " + rapid.SampledFrom([]string{"Service", "Faults", "Corrective action"}).Draw(t, "heading") + "\n\n"
		first := strings.Count(text, "\n")
		n := rapid.IntRange(1, 6).Draw(t, "lines")
		for i := range n {
			text += fmt.Sprintf(rapid.SampledFrom(forms).Draw(t, "form"), fmt.Sprintf("zq%d", i)) + "\n" + rapid.SampledFrom([]string{"", "\n"}).Draw(t, "gap")
		}
		c, problems := Parse("card.md", []byte(text))
		kept := fmt.Sprint(c.Service, c.Faults, c.Actions)
		all := strings.Split(text, "\n")[first:]
		for at, line := range all {
			i := strings.Index(line, "zq")
			if i < 0 || strings.Contains(kept, line[i:i+3]) {
				continue
			}
			from := at // a line that goes on is told with the one it belongs to
			for from > 0 && strings.HasPrefix(all[from], "  ") {
				from--
			}
			told := false
			for _, p := range problems {
				told = told || first+from+1 <= p.Line && p.Line <= first+at+1 || strings.Contains(p.Msg, line[i:i+3])
			}
			if !told {
				t.Fatalf("line %d, %q, is neither kept nor told:\n%s\n%v", first+at+1, line, text, problems)
			}
		}
	})
}

// TestFaultsAndCorrectiveActionBelongToSteps: a line that names a step counts for it alone,
// a limit for each step that has it.
func TestFaultsAndCorrectiveActionBelongToSteps(t *testing.T) {
	c, problems := Parse("base.md", []byte(served+"\n## Faults\n\n- bland: season\n- step 1: stringy: cut finer\n\n## Corrective action\n\n- core 75 °C: back on the heat\n- cool 8 °C: into shallow trays\n"))
	require.Empty(t, problems)
	assert.Equal(t, []Fault{{1, "stringy", "cut finer"}, {0, "bland", "season"}}, c.FaultsAt(0))
	assert.Equal(t, []Fault{{0, "bland", "season"}}, c.FaultsAt(1))
	assert.Equal(t, "back on the heat", c.CorrectiveAt(0))
	assert.Equal(t, "into shallow trays", c.CorrectiveAt(1))
	c.Actions = append(c.Actions, Action{"step 1", "discard"})
	assert.Equal(t, "discard", c.CorrectiveAt(0))
	assert.Equal(t, "into shallow trays", c.CorrectiveAt(1))
}

// TestServingTemperatureIsInTheCooksDegrees: 65 °C is 149 °F by the definition of the
// degree Fahrenheit, 65 × 9/5 + 32.
func TestServingTemperatureIsInTheCooksDegrees(t *testing.T) {
	c, problems := Parse("base.md", []byte(served+"\n## Service\n\n- station: sauce\n- serving temperature: 65 °C\n"))
	require.Empty(t, problems)
	got := c.Scale(quantity.Int(1), 0, quantity.Prefs{System: quantity.US}).Service()
	require.Len(t, got, 2)
	assert.Contains(t, got[0].String(), "serving temperature: 149 °F")
	assert.Equal(t, "station: sauce", got[1].String())
}
