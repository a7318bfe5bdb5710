package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestBatchFarFromItsTestSaysSo: at more than twice or less than half of what was tested
// a batch says so. Twice and half themselves are near enough.
func TestBatchFarFromItsTestSaysSo(t *testing.T) {
	c, problems := Parse("biscuits.md", []byte("---\nmakes: 24 pieces\ntested: 2027-05-02, 24 pieces, by the second cook\n---\n\n# Biscuits\n\n## Formula\n\n- 500 g oats\n\n## Method\n\n1. Bake the **oats**.\n   - hands: 5 min\n"))
	require.Empty(t, problems)
	const said = "2027-05-02, 24 pieces, by the second cook"
	for pieces, want := range map[int64]string{
		11: said + ". This is less than half of that: look at pans, times and seasoning",
		12: said, 24: said, 48: said,
		49: said + ". This is more than twice as much: look at pans, times and seasoning",
	} {
		assert.Equal(t, want, c.TestedFor(quantity.Int(pieces)), "%d pieces", pieces)
	}
	c.Tested = Tested{}
	assert.Empty(t, c.TestedFor(quantity.Int(90)))
}
