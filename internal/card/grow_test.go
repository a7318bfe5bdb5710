package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestTimesGrowWithTheAmount by hand: each group that is begun counts whole, by weight, by
// volume and by count. The card makes 1 kg.
func TestTimesGrowWithTheAmount(t *testing.T) {
	for _, tt := range []struct {
		hands, front string
		times        quantity.Number
		want         int // seconds
	}{
		{"12 min per kg", "", quantity.Frac(11, 10), 24 * 60},
		{"3 min + 4 min per 1 kg", "", quantity.Frac(5, 2), 15 * 60},
		{"20 min per 4 kg", "", quantity.Int(1), 20 * 60},
		{"4 min per 250 g", "", quantity.Frac(1, 3), 8 * 60},
		{"3 min per litre", "", quantity.Int(2), 6 * 60}, // as water, 1 kg a litre
		{"3 min per litre", "density: 1.25\n", quantity.Int(2), 6 * 60},
		{"45 s per 100 g", "", quantity.Frac(1, 1000), 45},
		{"2 min per 6 pieces", "12 pieces\neach: 80 g", quantity.Frac(7, 12), 4 * 60},
		{"1 min per 6 plates", "7 portions", quantity.Int(1), 2 * 60},
		{"10 min per 1 kg", "12 pieces\neach: 80 g", quantity.Int(1), 10 * 60},
	} {
		makes := "makes: 1 kg\n" + tt.front
		if tt.front != "" && tt.front[0] != 'd' {
			makes = "makes: " + tt.front + "\n"
		}
		c, problems := Parse("a.md", []byte("---\n"+makes+"---\n\n# Zest base\n\n## Formula\n\n- 1 kg zest\n\n## Method\n\n1. Sieve it.\n   - hands: "+tt.hands+"\n"))
		for _, p := range problems {
			require.NotContains(t, p.Msg, "can't be counted", tt.hands)
		}
		hands, _ := c.Time(&c.Steps[0], tt.times)
		assert.Equal(t, tt.want, hands.High, "%s, %s times", tt.hands, tt.times)
		assert.Equal(t, tt.want, hands.Low)
	}
}
