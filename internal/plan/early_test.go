package plan

import (
	"errors"
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestDinnerBegunLateHasAPlan misses everything that the plan had up to a moment. There
// is a plan still: it says how much longer the cooks stay and how late the courses are,
// and later moments give no earlier courses.
func TestDinnerBegunLateHasAPlan(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	in.Under, in.Known = true, first.Starts()
	late := 0
	for _, now := range []int{-2879, -1800, -1200} {
		in.Now = now
		pl, err := Make(in)
		require.NoError(t, err, "at %d", now)
		for _, k := range pl.Tasks {
			assert.GreaterOrEqual(t, k.Start, now, "%v at %d", k.Step, now)
		}
		assert.Contains(t, fmt.Sprint(pl.Notes), "longer than the kitchen's hours", "at %d", now)
		assert.GreaterOrEqual(t, pl.Aims.Late, late, "at %d", now)
		late = pl.Aims.Late
	}
	assert.Positive(t, late)
}

// TestStepDoneDaysEarlyIsPlannedAround ticks steps two days before the plan wants them,
// before the kitchen is at work. What was done keeps its time, the rest is planned around
// it, and the plan says where something waits longer than it keeps.
func TestStepDoneDaysEarlyIsPlannedAround(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	overdue := 0
	for i, k := range first.Tasks {
		if i%13 != 0 || k.Start < -2000 {
			continue
		}
		again, at := in, k.Start-2*aDay
		again.Progress = map[Step]Progress{k.Step: {Begun: true, Done: true, Start: at, End: at + 5}}
		pl, err := Make(again)
		if b := new(Blocked); errors.As(err, &b) {
			t.Log(b.Because)
		}
		require.NoError(t, err, "%v", k.Step)
		got := task(t, pl, k.Card, k.Step.Step)
		assert.Equal(t, []any{at, at + 5, true}, []any{got.Start, got.End, got.Done}, "%v", k.Step)
		for _, other := range pl.Tasks {
			overdue = max(overdue, other.Overdue)
		}
	}
	assert.Greater(t, overdue, aDay, "what was done two days early has waited too long for some")
}
