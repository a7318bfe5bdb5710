package plan

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestCoursesAreLateByTheirOwnMinutes lets two courses be late by what their own steps
// take from now on; the others stay on time.
func TestCoursesAreLateByTheirOwnMinutes(t *testing.T) {
	cards := map[string]string{}
	for _, id := range []string{"first", "second", "third"} {
		cards[id] = recipe(id, "makes: 1 plate", []string{"1 piece bread"}, "Bake.; hands: 2 min; wait: 40 min; keep: 30 min hot", "Send.; hands: 3 min; serve")
	}
	in := cook(t, galley(3, "12:00–24:00"), courses(4, "first", "second 20 min", "third 90 min"), cards)
	in.Under, in.Now = true, 0
	pl := remake(t, in)
	var late []int
	for _, c := range pl.Courses {
		late = append(late, c.At-c.Due)
	}
	assert.Equal(t, []int{45, 25, 0}, late, "2 + 40 + 3 minutes from now; the second course is due after 20")
}

// TestLatePlanNeedsFewTrials plans the demo dinner when it is late by an hour to a day. The
// effort is counted in projects: each is one trial.
func TestLatePlanNeedsFewTrials(t *testing.T) {
	in := supper(t, 18)
	first := remake(t, in)
	for _, now := range []int{-1500, -600, -200, -60, 0, 60} {
		t.Run(fmt.Sprint(now), func(t *testing.T) {
			for _, known := range []bool{false, true} {
				again := in
				again.Under, again.Now = true, now
				if known {
					again.Known = first.Starts()
				}
				trials := 0
				again.OnBuild = func() { trials++ }
				pl := remake(t, again)
				assert.LessOrEqual(t, trials, 60)
				require.NotZero(t, pl.Aims.Late)
			}
		})
	}
}
