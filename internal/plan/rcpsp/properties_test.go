package rcpsp

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// On problems small enough to try every start, Solve finds the shortest makespan or
// proves that there is no schedule.
func TestSolveAgreesWithTryingEveryStart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t, tiny, true)
		const none = MaxTime
		best := none
		everyStart(p, func(s Schedule) { best = min(best, s.Makespan(p)) })
		s, rep, err := Solve(p, Budget{Schedules: 2000, Seed: rapid.Uint64().Draw(t, "seed")})
		var impossible *InfeasibleError
		if best == none {
			require.ErrorAs(t, err, &impossible, "no schedule exists, got %v", s)
			require.Equal(t, Infeasible, rep.Status)
			return
		}
		require.NoError(t, err)
		require.NoError(t, Check(p, s))
		require.Equal(t, best, s.Makespan(p))
		require.Equal(t, Optimal, rep.Status)
		require.LessOrEqual(t, rep.LowerBound, best)
	})
}

// A cycle of time lags in an error can be checked without the solver: the lags
// follow one another and close, are those of the problem, and have a positive sum.
func TestCycleOfLagsIsPositive(t *testing.T) {
	seen := 0
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t, tiny, true)
		_, _, err := Solve(p, Budget{Schedules: 50})
		var why *InfeasibleError
		if !errors.As(err, &why) || len(why.Cycle) == 0 {
			return
		}
		seen++
		sum := 0
		for k, l := range why.Cycle {
			sum += l.Min
			require.Equal(t, l.To, why.Cycle[(k+1)%len(why.Cycle)].From, "%v", why)
			if l.From != Origin && l.To != Origin {
				require.Contains(t, p.Lags, l)
			}
		}
		require.Positive(t, sum, "%v", why)
	})
	require.Positive(t, seen, "no random problem had a positive cycle")
}

// A schedule satisfies all constraints, is not shorter than the bounds, is the same
// in a second run, and takes no more than the budget.
func TestSolveKeepsItsPromises(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		if checkSolve(t) {
			found++
		}
	})
	require.Greater(t, found, 20, "most random problems should have a schedule")
}

// FuzzSolve has the fuzzer choose the problem, so that it can look for rare paths.
func FuzzSolve(f *testing.F) { f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { checkSolve(t) })) }

// checkSolve solves a random problem and reports whether it has a schedule.
func checkSolve(t *rapid.T) (found bool) {
	p := anyProblem(t, middle, rapid.Bool().Draw(t, "harsh"))
	b := Budget{Schedules: rapid.IntRange(1, 300).Draw(t, "budget"), Seed: rapid.Uint64().Draw(t, "seed")}
	s, rep, err := Solve(p, b)
	again, repAgain, errAgain := Solve(p, b)
	require.Equal(t, s, again)
	require.Equal(t, rep, repAgain)
	require.Equal(t, err, errAgain)
	require.LessOrEqual(t, rep.Schedules, b.Schedules)
	if err != nil {
		return false
	}
	require.NoError(t, Check(p, s))
	require.GreaterOrEqual(t, s.Makespan(p), rep.LowerBound)
	require.GreaterOrEqual(t, s.Makespan(p), rep.CriticalPath)
	if rep.Status == Optimal {
		require.Equal(t, s.Makespan(p), rep.LowerBound)
	}
	return true
}

// The result is never worse than the initial schedule.
func TestInitialScheduleIsNeverLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t, middle, false)
		s, _, err := Solve(p, Budget{Schedules: 150})
		if err != nil {
			return
		}
		again, _, err := Solve(p, Budget{Schedules: 2, Seed: 9, Initial: s})
		require.NoError(t, err)
		require.NoError(t, Check(p, again))
		require.LessOrEqual(t, again.Makespan(p), s.Makespan(p))
	})
}

// The packed profile finds the same starts as Check does by trying one time after
// the other.
func TestProfileAgreesWithCheck(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t, size{12, 6, 5, 0}, false)
		m, why := compile(p)
		if why != nil {
			return
		}
		f := m.base
		at := map[int]int32{}
		fits := func(i int, start int32) bool { // by the checker, on what is placed
			q := &Problem{Resources: p.Resources}
			s := Schedule{}
			for j, tj := range at {
				q.Activities, s = append(q.Activities, Activity{Dur: p.Activities[j].Dur, Needs: p.Activities[j].Needs}), append(s, int(tj))
			}
			q.Activities, s = append(q.Activities, Activity{Dur: p.Activities[i].Dur, Needs: p.Activities[i].Needs}), append(s, int(start))
			return Check(q, s) == nil
		}
		for range 30 {
			i := rapid.IntRange(0, m.n-1).Draw(t, "activity")
			if old, ok := at[i]; ok {
				f.release(&m.demand[i], old, m.dur[i])
				delete(at, i)
				continue
			}
			from := int32(rapid.IntRange(0, 40).Draw(t, "from"))
			want := from
			for want < 200 && !fits(i, want) {
				want++
			}
			got := f.earliest(&m.demand[i], from, m.dur[i])
			if want == 200 {
				require.GreaterOrEqual(t, got, int32(200))
				continue
			}
			require.Equal(t, want, got)
			back := from
			for back >= 0 && !fits(i, back) {
				back--
			}
			if got := f.latest(&m.demand[i], from, m.dur[i]); back >= 0 {
				require.Equal(t, back, got)
			} else {
				require.Negative(t, got)
			}
			f.reserve(&m.demand[i], want, m.dur[i])
			at[i] = want
		}
	})
}
