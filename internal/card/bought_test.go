package card

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestItemIsBoughtInAGradeOrAState: what the order list writes behind the name, and the work
// that the prep list has of it.
func TestItemIsBoughtInAGradeOrAState(t *testing.T) {
	for _, tt := range []struct {
		typed, as, work string
		ready           bool
	}{
		{"60 g salt", "", "", false},
		{"60 g salt, fine", "fine", "", false},
		{"60 g fine salt", "fine", "", false},
		{"60 g salt, coarse, not eaten", "coarse", "", false},
		{"60 g sea salt, flaky", "flaked", "", false},
		{"60 g salt, flaked", "flaked", "", false},
		{"20 g leaf gelatine, silver, each 2.5 g", "silver", "", false},
		{"20 g leaf gelatine, platinum, each 1.7 g", "platinum", "", false},
		{"60 g caster sugar, fine", "", "", false},
		{"200 g peas, bought in the pod", "in the pod", "podded", false},
		{"200 g peas, podded, bought in the pod", "in the pod", "podded", false},
		{"200 g peas, bought podded", "podded", "", true},
		{"200 g trout, bought gutted, filleted", "gutted", "filleted", false},
		{"200 g trout, bought filleted", "filleted", "", true},
		{"20 g parsley, chopped, bought in bunches", "in bunches", "picked, chopped", false},
		{"20 g parsley, bought picked, chopped", "picked", "chopped", true},
		{"200 g prawns, bought in the shell", "in the shell", "shelled", false},
		{"200 g carrots, bought ready peeled, sliced", "ready peeled", "sliced", true},
	} {
		c, problems := Parse("a.md", []byte("---\nmakes: 100 g\n---\n\n# A\n\n## Formula\n\n- "+tt.typed+"\n- 900 g water\n\n## Method\n\n1. Cook it all.\n   - hands: 5 min\n"))
		for _, p := range problems {
			require.Contains(t, p.Msg, "no step names", tt.typed)
		}
		assert.Equal(t, tt.as, c.BoughtAs(&c.Items[0]), tt.typed)
		assert.Equal(t, tt.work, c.PrepWork(0), tt.typed)
		assert.Equal(t, tt.ready, c.Items[0].Ready(), tt.typed)
	}
}
