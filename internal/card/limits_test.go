package card

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// numbered writes n lines, each with its number in place of "@".
func numbered(n int, line string) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.ReplaceAll(line, "@", strconv.Itoa(i+1)))
	}
	return b.String()
}

// TestPartsOverTheBoundAreLeftOut writes more parts than a card may have. The
// parts up to the bound are read, and one problem names the first line left out.
func TestPartsOverTheBoundAreLeftOut(t *testing.T) {
	const head = "---\nmakes: 1 plate\n---\n\n# Peas\n\n"
	const formula, method = "## Formula\n\n- 1 kg peas\n\n", "## Method\n\n1. Boil the **peas**.\n   - hands: 5 min\n"
	const step = "1. Stir.\n   - hands: 1 min\n"
	for _, tt := range []struct {
		name, text string // a text with as many parts as allowed; more adds one too many
		more       string
		count      func(c *Card) int
		most       int
		want       string
	}{
		{"items", head + "## Formula\n\n" + numbered(maxItems, "- 1 g pea\n"), "- 1 g pea one too many\n", func(c *Card) int { return len(c.Items) }, maxItems,
			"card.md:509:7: the card has more than 500 items; those from here on are not read; write several cards"},
		{"steps", head + formula + method + numbered(maxSteps-1, step), step, func(c *Card) int { return len(c.Steps) }, maxSteps,
			"card.md:2013:1: the card has more than 1000 steps; those from here on are not read; write several cards"},
		{"ways", head + formula + method + numbered(maxWays, "\n### Way: w@\n\n"+step), "\n### Way: one too many\n\n" + step, func(c *Card) int { return len(c.Ways) }, maxWays,
			"card.md:116:5: the card has more than 20 ways; those from here on are not read; write several cards"},
		{"by-products", head + formula + method + "\n## Saves\n\n" + numbered(maxSaves, "- pod @: 1 g\n"), "- husk: 1 g\n", func(c *Card) int { return len(c.Saves) }, maxSaves,
			"card.md:218:3: the card has more than 200 by-products; those from here on are not read; write several cards"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			c, problems := Parse("card.md", []byte(tt.text))
			assert.Equal(t, tt.most, tt.count(c))
			assert.NotContains(t, strings.Join(lines(problems), "\n"), "more than")
			for _, again := range []int{1, 3} {
				text := []byte(tt.text + strings.Repeat(tt.more, again))
				c, problems = Parse("card.md", text)
				assert.Equal(t, tt.most, tt.count(c))
				sound(t, c, problems, text)
				var got []string
				for _, line := range lines(problems) {
					if strings.Contains(line, "more than") {
						got = append(got, line)
					}
				}
				require.Equal(t, []string{tt.want}, got)
			}
		})
	}
}
