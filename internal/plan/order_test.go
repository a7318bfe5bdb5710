package plan

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// twoPlates is a dinner of a fish plate and a beetroot plate in one course, with a fact
// added to the beetroot's second step.
func twoPlates(t *testing.T, fact string) Input {
	menu := courses(9, "fish", "beet 30 min")
	return cook(t, galley(1, "15:00–20:00"), menu, map[string]string{
		"fish": recipe("Trout fillets", "makes: 1 plate\nkeeps: 2 h room", []string{"50 g trout", "10 g dill"}, "Pick the **dill**.; hands: 5 min", "Skin the **trout**.; hands: 10 min; after: start", "Lay it out.; hands: 5 min; serve"),
		"beet": recipe("Beetroot", "makes: 1 plate\nkeeps: 3 h room", []string{"50 g beetroot"}, "Peel the **beetroot**.; hands: 5 min", "Cut it.; hands: 10 min; serve"+fact)})
}

// TestStepsKeepTheOrderWithOtherCards: a later course comes first where its card says so.
func TestStepsKeepTheOrderWithOtherCards(t *testing.T) {
	for _, tt := range []struct {
		fact          string
		before, after int // the step of the fish that the beetroot's second step is done before, or begins after
	}{
		{"; before: Trout fillets, step 1", 1, 0},
		{"; before: [the trout](fish.md), step 3", 3, 0},
		{"; before: anything with fish", 2, 0},
		{"; before: Trout fillets", 1, 0},
		{"; after: Trout fillets, step 2", 0, 2},
		{"; after: anything with fish", 0, 3},
	} {
		t.Run(tt.fact, func(t *testing.T) {
			in := twoPlates(t, tt.fact)
			pl, err := Make(in)
			require.NoError(t, err)
			assert.Empty(t, breaks(in, pl))
			beet := task(t, pl, "beet", 2)
			if tt.before > 0 {
				assert.LessOrEqual(t, beet.End, task(t, pl, "fish", tt.before).Start)
			} else {
				assert.LessOrEqual(t, task(t, pl, "fish", tt.after).End, beet.Start)
			}
		})
	}
}

// TestOrderThatNoTimeIsLeftForIsBlocked: the first course waits for a step of the second
// that takes hours.
func TestOrderThatNoTimeIsLeftForIsBlocked(t *testing.T) {
	in := cook(t, galley(1, "18:00–22:00"), courses(2, "first", "second 30 min"), map[string]string{
		"first":  recipe("First", "makes: 1 plate", []string{"1 g salt"}, "Send.; hands: 2 min; serve; after: Second, step 1"),
		"second": recipe("Second", "makes: 1 plate", []string{"1 g salt"}, "Soak.; hands: 2 min; wait: 90 min", "Send.; hands: 2 min; serve")})
	_, err := Make(in)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "Second, step 1 takes 1 h 32 min")
}

// TestWorkKeptApart: with two cooks, nobody is at wheat flour while the crackers are
// made, nor in the ten minutes in which the bench is cleared.
func TestWorkKeptApart(t *testing.T) {
	dinner := func(apart string) Input {
		return cook(t, galley(2, "17:00–20:00", "mixer"), courses(6, "crackers", "bread 5 min"), map[string]string{
			"crackers": recipe("Crackers", "makes: 1 plate\nkeeps: 1 h room"+apart, []string{"50 g rice flour"}, "Mix the **rice flour**.; hands: 15 min", "Roll it.; hands: 20 min"),
			"bread":    recipe("Bread", "makes: 1 plate\nkeeps: 1 h room", []string{"50 g wheat flour"}, "Mix the **wheat flour**.; hands: 15 min; mixer", "Shape it.; hands: 20 min")})
	}
	in := dinner("\napart: gluten")
	pl, err := Make(in)
	require.NoError(t, err)
	assert.Empty(t, breaks(in, pl))
	plain, err := Make(dinner(""))
	require.NoError(t, err)
	assert.NotEmpty(t, breaks(in, plain), "without the fact the two are made side by side")
	assert.Contains(t, strings.Join(breaks(in, plain), "\n"), "is kept apart from gluten")
}
