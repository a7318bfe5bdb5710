package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Problems whose shortest makespan can be worked out by hand; each row says how.
func TestSolveFindsTheMakespanWorkedOutByHand(t *testing.T) {
	one := func(r int) []Need { return []Need{{Resource: r, Amount: 1}} }
	for _, tt := range []struct {
		name string
		p    Problem
		want int
		why  string
	}{
		{"nothing to do", Problem{}, 0, "no activity"},
		{"a sequence", Problem{
			Activities: []Activity{{Dur: 3}, {Dur: 4}, {Dur: 2}},
			Lags:       []Lag{{0, 1, 3}, {1, 2, 4}},
		}, 9, "3 + 4 + 2"},
		{"capacity of one", Problem{
			Activities: []Activity{{Dur: 3, Needs: one(0)}, {Dur: 4, Needs: one(0)}, {Dur: 2, Needs: one(0)}},
			Resources:  []Resource{{Cap: 1}},
		}, 9, "one after another"},
		{"capacity of two", Problem{
			Activities: []Activity{{Dur: 3, Needs: one(0)}, {Dur: 4, Needs: one(0)}, {Dur: 2, Needs: one(0)}, {Dur: 3, Needs: one(0)}},
			Resources:  []Resource{{Cap: 2}},
		}, 6, "4 + 2 beside 3 + 3"},
		{"a break", Problem{
			Activities: []Activity{{Dur: 3, Needs: one(0)}, {Dur: 4, Needs: one(0)}},
			Resources:  []Resource{{Cap: 1, Changes: []Change{{5, 0}, {8, 1}}}},
		}, 11, "4 before the break and 3 after it: 8 + 3"},
		{"two states of one resource", Problem{
			Activities: []Activity{{Dur: 5, Needs: []Need{{0, 1, 180}}}, {Dur: 3, Needs: []Need{{0, 1, 220}}}, {Dur: 5, Needs: []Need{{0, 1, 180}}}, {Dur: 2, Needs: []Need{{0, 1, 0}}}},
			Resources:  []Resource{{Cap: 2}},
		}, 8, "the two in state 180 together, then the one in state 220; the one without a state beside either"},
		{"a maximum lag", Problem{
			Activities: []Activity{{Dur: 2, Needs: one(0)}, {Dur: 2, Needs: one(0)}, {Dur: 6, Needs: one(0), Deadline: 8}},
			Lags:       []Lag{{0, 1, 2}, {1, 0, -3}},
			Resources:  []Resource{{Cap: 1}},
		}, 10, "both short ones after the long one, or it would come between them"},
		{"fixed in the past", Problem{
			Activities: []Activity{{Dur: 6, Needs: one(0), Fixed: true, Start: -2}, {Dur: 3, Needs: one(0)}},
			Resources:  []Resource{{Cap: 1}},
		}, 7, "from 4, when the fixed one ends"},
		{"fixed in the future", Problem{
			Activities: []Activity{{Dur: 2, Needs: one(0), Fixed: true, Start: 4}, {Dur: 3, Needs: one(0)}, {Dur: 2, Needs: one(0)}},
			Lags:       []Lag{{1, 0, 3}},
			Resources:  []Resource{{Cap: 1}},
		}, 8, "the one of 3 before it, because of the lag; the one of 2 does not fit before 4"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, rep, err := Solve(&tt.p, Budget{Schedules: 200, Seed: 1})
			require.NoError(t, err)
			require.NoError(t, Check(&tt.p, s))
			assert.Equal(t, tt.want, s.Makespan(&tt.p), tt.why)
			assert.Equal(t, Optimal, rep.Status)
			assert.Equal(t, tt.want, rep.LowerBound)
		})
	}
}

// Each row has no schedule, for a reason that the error has to name.
func TestSolveNamesTheReasonOfInfeasibility(t *testing.T) {
	for _, tt := range []struct {
		name string
		p    Problem
		want string
	}{
		{"cycle of lags", Problem{
			Activities: make([]Activity, 3), Lags: []Lag{{0, 1, 5}, {1, 2, 3}, {2, 0, -7}},
		}, "activity 0 to activity 1 at least 5"},
		{"deadline too early", Problem{
			Activities: []Activity{{Dur: 4, Release: 2}, {Dur: 2, Deadline: 7}}, Lags: []Lag{{0, 1, 4}},
		}, "the time lags contradict each other: time zero to activity 0 at least 2, activity 0 to activity 1 at least 4, activity 1 to time zero at least -5, together 1 too much"},
		{"need above capacity", Problem{
			Activities: []Activity{{Dur: 1}, {Dur: 1, Needs: []Need{{1, 3, 0}}}}, Resources: []Resource{{Cap: 9}, {Cap: 2}},
		}, "activity 1 fits nowhere in its time window: resource 1 never has enough left for long enough"},
		{"longer than any open time", Problem{
			Horizon: 20, Activities: []Activity{{Dur: 6, Needs: []Need{{0, 1, 0}}}},
			Resources: []Resource{{Cap: 1, Changes: []Change{{5, 0}, {6, 1}, {11, 0}}}},
		}, "activity 0 fits nowhere"},
		{"capacity zero", Problem{
			Activities: []Activity{{Dur: 1, Needs: []Need{{0, 1, 0}}}}, Resources: []Resource{{}},
		}, "activity 0 fits nowhere"},
		{"overload", Problem{
			Horizon: 8, Activities: []Activity{{Dur: 3, Needs: []Need{{0, 1, 0}}}, {Dur: 3, Needs: []Need{{0, 1, 0}}}, {Dur: 3, Needs: []Need{{0, 1, 0}}}},
			Resources: []Resource{{Cap: 1}},
		}, "activities [0 1 2] must all run between 0 and 8 and require 9 of resource 0 over that time, which has 8"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, rep, err := Solve(&tt.p, Budget{Schedules: 500, Seed: 1})
			assert.Nil(t, s)
			var why *InfeasibleError
			require.ErrorAs(t, err, &why)
			assert.ErrorContains(t, err, tt.want)
			assert.Equal(t, Infeasible, rep.Status)
		})
	}
}

// The effort does not depend on the unit of time: a problem with times up to
// MaxTime is solved as fast as one with small times.
func TestLargeTimesTakeNoLonger(t *testing.T) {
	p := &Problem{Resources: []Resource{{Cap: 1}}, Horizon: MaxTime}
	for range 6 {
		p.Activities = append(p.Activities, Activity{Dur: 200_000, Needs: []Need{{0, 1, 0}}})
	}
	p.Lags = []Lag{{0, 1, 300_000}, {1, 0, -1_000_000}, {2, 0, 200_000}}
	s, rep, err := Solve(p, Budget{Schedules: 200})
	require.NoError(t, err)
	require.NoError(t, Check(p, s))
	assert.Equal(t, 1_200_000, s.Makespan(p))
	assert.Equal(t, Optimal, rep.Status)
}

// A cycle of lags with a sum of one must be recognized as a cycle; raising starts by
// one each time round up to the horizon would take too long.
func TestLongCycleIsFoundAtOnce(t *testing.T) {
	p := &Problem{Horizon: MaxTime, Activities: make([]Activity, 400)}
	for i := range p.Activities {
		p.Lags = append(p.Lags, Lag{i, (i + 1) % 400, 0})
	}
	p.Lags[7].Min = 1
	_, rep, err := Solve(p, Budget{Schedules: 10})
	var why *InfeasibleError
	require.ErrorAs(t, err, &why)
	assert.Len(t, why.Cycle, 400)
	assert.Zero(t, rep.Schedules)
}

// Without a simple reason, the report names the activities in conflict: three long
// ones do not fit on two machines, and the fourth has nothing to do with it.
func TestConflictingNamesTheActivitiesInConflict(t *testing.T) {
	p := &Problem{Resources: []Resource{{Cap: 2}, {Cap: 1}}, Horizon: 10}
	for range 3 {
		p.Activities = append(p.Activities, Activity{Dur: 6, Needs: []Need{{0, 1, 0}}})
	}
	p.Activities = append(p.Activities, Activity{Dur: 2, Needs: []Need{{1, 1, 0}}})
	_, rep, err := Solve(p, Budget{Schedules: 100})
	var why *InfeasibleError
	require.ErrorAs(t, err, &why)
	assert.Nil(t, why.Overload, "18 of 20: no overload")
	assert.Equal(t, Infeasible, rep.Status)
	assert.Subset(t, []int{0, 1, 2}, rep.Conflicting)
	assert.NotEmpty(t, rep.Conflicting)
}
