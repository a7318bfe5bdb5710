package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPlatesForGuestsWithExclusionsComeFirst: with one cook the plate for the guest who
// can't have something is made before the others, also where it must wait for them,
// unless its card says that it can't.
func TestPlatesForGuestsWithExclusionsComeFirst(t *testing.T) {
	for _, tt := range []struct {
		keep  string
		first bool
	}{{"", true}, {"; keep: 20 min room", true}, {"; keep: 5 min hot", false}} {
		menu := strings.Replace(courses(9, "plate"), "- [plate](plate.md)", "- [plate](plate.md)\n- [other](other.md): for no fish", 1) + "\n## Guests\n\n- 1 cover: no fish\n"
		in := cook(t, galley(1, "15:00–20:00"), menu, map[string]string{
			"plate": recipe("Plate", "makes: 1 plate", []string{"1 g salt"}, "Send.; hands: 8 min; serve"),
			"other": recipe("Other", "makes: 1 plate", []string{"1 g salt"}, "Send.; hands: 2 min; serve"+tt.keep)})
		pl, err := Make(in)
		if !tt.first {
			// The last hour is the same in either order; the card's five minutes decide.
			require.NoError(t, err)
			assert.Greater(t, task(t, pl, "other", 1).Start, task(t, pl, "plate", 1).Start)
			continue
		}
		require.NoError(t, err)
		assert.Less(t, task(t, pl, "other", 1).Start, task(t, pl, "plate", 1).Start, tt.keep)
		assert.Empty(t, breaks(in, pl))
	}
}
