package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestPotsSideBySideBoilAtOnce by hand: 20 L at 4 min a litre are 80 min in one pot and 40 in two, each
// of which has half; the hands-on time is that of all. Twice the amount is in four pots of 12 L.
func TestPotsSideBySideBoilAtOnce(t *testing.T) {
	for _, tt := range []struct {
		facts       string
		factor      int64
		hands, wait int // minutes
	}{
		{"hob: 1 ring\n   - pot: 24 L", 1, 20, 80},
		{"hob: 1 ring\n   - pot: 2, 12 L", 1, 20, 40},
		{"hob: 1 ring\n   - pot: 2, 12 L", 2, 40, 40},
		{"hob: 1 ring\n   - pot: 2, 12 L\n   - load: 10 L", 1, 20, 80},
		{"oven: 200 °C\n   - pot: 2, 12 L", 1, 20, 80},
		{"hob: 1 ring", 1, 20, 80},
	} {
		c, problems := Parse("a.md", []byte("---\nmakes: 20 L\n---\n\n# A\n\n## Formula\n\n- 20 L water\n\n## Method\n\n1. Boil the **water**.\n   - "+tt.facts+"\n   - hands: 1 min per L\n   - wait: 4 min per L\n"))
		require.Empty(t, problems, tt.facts)
		hands, wait := c.Time(&c.Steps[0], quantity.Int(tt.factor))
		assert.Equal(t, tt.hands*60, hands.High, tt.facts)
		assert.Equal(t, tt.wait*60, wait.High, tt.facts)
	}
}
