package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// anyCosts gives the activities of p random costs.
func anyCosts(t *rapid.T, p *Problem) {
	for i := range p.Activities {
		for range rapid.IntRange(0, 2).Draw(t, "slopes") {
			p.Activities[i].Cost = append(p.Activities[i].Cost, Slope{
				At:     rapid.IntRange(0, 30).Draw(t, "at"),
				Early:  rapid.IntRange(0, 5).Draw(t, "early"),
				Span:   rapid.SampledFrom([]int{0, 0, 4}).Draw(t, "span"),
				Late:   rapid.IntRange(0, 5).Draw(t, "late"),
				Before: rapid.SampledFrom([]int{0, 0, 7}).Draw(t, "before"), After: rapid.SampledFrom([]int{0, 0, 20}).Draw(t, "after"),
			})
		}
	}
}

// The result satisfies all constraints, ends no later and costs no more, and a
// second run gives the same.
func TestReduceCostNeverCostsMore(t *testing.T) {
	gained := 0
	rapid.Check(t, func(t *rapid.T) {
		if checkReduceCost(t) {
			gained++
		}
	})
	require.Greater(t, gained, 10, "most random schedules can be made cheaper")
}

// FuzzReduceCost has the fuzzer choose the problem and its costs.
func FuzzReduceCost(f *testing.F) {
	f.Fuzz(rapid.MakeFuzz(func(t *rapid.T) { checkReduceCost(t) }))
}

// checkReduceCost reduces the cost of a random schedule and reports whether that
// gained anything.
func checkReduceCost(t *rapid.T) (gained bool) {
	p := anyProblem(t, middle, rapid.Bool().Draw(t, "harsh"))
	anyCosts(t, p)
	s, _, err := Solve(p, Budget{Schedules: 100})
	if err != nil {
		return false
	}
	b := Budget{Schedules: rapid.IntRange(1, 40).Draw(t, "budget"), Seed: rapid.Uint64().Draw(t, "seed")}
	out, cost, err := ReduceCost(p, s, b)
	require.NoError(t, err)
	require.NoError(t, Check(p, out))
	require.LessOrEqual(t, out.Makespan(p), s.Makespan(p))
	require.Equal(t, p.Cost(out), cost)
	require.LessOrEqual(t, cost, p.Cost(s))
	again, _, err := ReduceCost(p, s, b)
	require.NoError(t, err)
	require.Equal(t, out, again)
	return cost < p.Cost(s)
}

// On problems small enough to try every schedule, the cheapest is found in nine of
// ten cases or more.
func TestReduceCostFindsTheCheapestSchedule(t *testing.T) {
	tried, missed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := anyProblem(t, tiny, false)
		anyCosts(t, p)
		s, _, err := Solve(p, Budget{Schedules: 200})
		if err != nil {
			return
		}
		least := p.Cost(s)
		everyStart(p, func(o Schedule) {
			if o.Makespan(p) <= s.Makespan(p) {
				least = min(least, p.Cost(o))
			}
		})
		_, cost, err := ReduceCost(p, s, Budget{Schedules: 200})
		require.NoError(t, err)
		require.GreaterOrEqual(t, cost, least)
		tried++
		if cost > least {
			missed++
		}
	})
	require.Positive(t, tried)
	assert.LessOrEqual(t, missed, tried/10+1, "of %d", tried)
}

// Two activities with a fixed distance move together: the first is cheaper later,
// and neither could move alone.
func TestActivitiesBoundByLagsMoveTogether(t *testing.T) {
	p := &Problem{
		Activities: []Activity{{Dur: 2, Cost: Curve{{At: 10, Early: 3}}}, {Dur: 2}, {Dur: 20}},
		Lags:       []Lag{{0, 1, 2}, {1, 0, -2}},
	}
	out, cost, err := ReduceCost(p, Schedule{0, 2, 0}, Budget{Schedules: 10})
	require.NoError(t, err)
	assert.Equal(t, Schedule{10, 12, 0}, out)
	assert.Zero(t, cost)
}

// With a cost for leaving a known plan, all activities go back to it.
func TestReduceCostReturnsToAKnownPlan(t *testing.T) {
	p := &Problem{Resources: []Resource{{Cap: 1}}, Horizon: 40}
	known := Schedule{20, 8, 0, 30}
	for i := range known {
		p.Activities = append(p.Activities, Activity{Dur: 4, Needs: []Need{{0, 1, 0}}, Cost: Curve{{At: known[i], Early: 1, Late: 1}}})
	}
	p.Activities[3].Fixed, p.Activities[3].Start = true, 31 // it started a little late
	s := Schedule{8, 4, 0, 31}
	out, _, err := ReduceCost(p, s, Budget{Schedules: 50})
	require.NoError(t, err)
	assert.Equal(t, Schedule{20, 8, 0, 31}, out)
}

func TestReduceCostRefusesAnInvalidSchedule(t *testing.T) {
	_, _, err := ReduceCost(&Problem{Activities: make([]Activity, 2), Lags: []Lag{{0, 1, 3}}}, Schedule{0, 1}, Budget{Schedules: 1})
	assert.ErrorContains(t, err, "the time lag from 0 must be at least 3")
}

func TestCurveAddsItsSlopes(t *testing.T) {
	c := Curve{{At: 10, Early: 2}, {At: 20, Late: 5}, {At: 15, Early: 1, Late: 1}}
	assert.Equal(t, 2*10+15, c.At(0))
	assert.Equal(t, 0, c.At(15))
	assert.Equal(t, 5*2+7, c.At(22))
	assert.Equal(t, 15, c.cheapest(0, 30))
	assert.Equal(t, 18, c.cheapest(18, 30))
	assert.Equal(t, 7, c.cheapest(0, 7))
	assert.Equal(t, 3, Curve(nil).cheapest(3, 9), "without a cost, the earliest")
}
