package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestItemMarkedNotEatenIsUneaten reads "not eaten" in the preparation of an
// item, and nothing that only resembles it.
func TestItemMarkedNotEatenIsUneaten(t *testing.T) {
	for _, tt := range []struct {
		line    string
		uneaten bool
		prep    string
	}{
		{"- 60 g egg whites, not eaten", true, "not eaten"},
		{"- 60 g egg whites, for the crust, Not eaten", true, "for the crust, Not eaten"},
		{"- 60 g egg whites, whisked", false, "whisked"},
		{"- 60 g egg whites, not eaten raw", false, "not eaten raw"},
	} {
		c, problems := Parse("crust.md", []byte("---\nmakes: 60 g\n---\n\n# Crust\n\n## Formula\n\n"+tt.line+"\n\n## Method\n\n1. Mix the **egg whites**.\n   - hands: 5 min\n"))
		require.Len(t, c.Items, 1, tt.line)
		assert.Equal(t, tt.uneaten, c.Items[0].Uneaten, tt.line)
		assert.Equal(t, tt.prep, c.Items[0].Prep, "the reader is told as well")
		assert.Empty(t, problems, tt.line)
	}
}
