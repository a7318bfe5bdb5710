package dinner

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Folding only the events that were not undone gives the same state as folding
// all. Standing returns each once, in order, without undos, in whatever order
// they came.
func TestStandingFoldsToTheSameState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		events := drawEvents(t, "events")
		standing := Standing(events)
		require.Equal(t, standing, Standing(rapid.Permutation(events).Draw(t, "order")))
		require.Equal(t, standing, Standing(standing))
		seen := map[string]bool{}
		for i := range standing {
			require.NotEqual(t, KindUndo, standing[i].Kind)
			require.False(t, seen[standing[i].ID], "twice")
			seen[standing[i].ID] = true
			if i > 0 {
				require.Negative(t, standing[i-1].Compare(&standing[i]), "in order")
			}
		}
		known := Event{ID: "stays-known", Dinner: "boathouse", Kind: "none"} // also when all is undone
		require.Equal(t, Fold(append(slices.Clone(events), known)), Fold(append(standing, known)))
	})
}

// Folding the first of them gives the state as it was at that time, without
// later events and without what was undone since.
func TestStandingPrefixIsAnEarlierState(t *testing.T) {
	standing := Standing([]Event{
		undo(4, "undo-one", "covers-at-2"),
		at(3, Event{Kind: KindCovers, Number: 36}),
		at(2, Event{Kind: KindCovers, Number: 44}),
		at(1, Event{Kind: KindCovers, Number: 40}),
	})
	require.Equal(t, []string{"covers-at-1", "covers-at-3"}, ids(standing))
	assert.Equal(t, 40, Fold(standing[:1]).Covers)
	assert.Equal(t, 36, Fold(standing).Covers)
	assert.NotNil(t, Standing(nil))
	assert.Empty(t, Standing(nil))
}
