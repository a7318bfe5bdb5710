package rcpsp

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// hardProblem returns a problem of six or seven activities that compete for two
// scarce resources, so that the exhaustive search meets many conflicts. It has time
// lags of both kinds, breaks and, on one resource, states.
func hardProblem(r *Random) *Problem {
	p := &Problem{Horizon: 3}
	for range 2 {
		res := Resource{Cap: 2 + r.below(2)}
		if r.below(3) == 0 {
			at := 1 + r.below(6)
			res.Changes = []Change{{at, r.below(2)}, {at + 1 + r.below(3), res.Cap}}
			p.Horizon += 3
		}
		p.Resources = append(p.Resources, res)
	}
	n := 6 + r.below(2)
	for i := range n {
		a := Activity{Dur: 1 + r.below(3)}
		p.Horizon += a.Dur
		for k, res := range p.Resources {
			if r.below(4) > 0 {
				need := Need{Resource: k, Amount: 1 + r.below(res.Cap)}
				if k == 1 {
					need.State = r.below(3)
				}
				a.Needs = append(a.Needs, need)
			}
		}
		p.Activities = append(p.Activities, a)
		for j := range i {
			switch r.below(10) {
			case 0, 1:
				p.Lags = append(p.Lags, Lag{j, i, p.Activities[j].Dur})
			case 2:
				p.Lags = append(p.Lags, Lag{j, i, r.below(3)}, Lag{i, j, -3 - r.below(6)})
			}
		}
	}
	return p
}

// shortest returns schedules of the shortest makespan, at most so many, found by
// trying every start of every activity; none when no schedule ends within the
// horizon. It shares no code with the solver.
func shortest(p *Problem, most int) (found []Schedule) {
	n := len(p.Activities)
	s := make(Schedule, n)
	used := make([][]int, len(p.Resources)) // by resource and moment
	state := make([][]int, len(p.Resources))
	for k := range used {
		used[k], state[k] = make([]int, p.Horizon), make([]int, p.Horizon)
	}
	fits := func(i, at int) bool {
		for _, l := range p.Lags {
			if l.To == i && l.From < i && at < s[l.From]+l.Min || l.From == i && l.To < i && s[l.To] < at+l.Min {
				return false
			}
		}
		for _, need := range p.Activities[i].Needs {
			for t := at; t < at+p.Activities[i].Dur; t++ {
				now := state[need.Resource][t]
				if used[need.Resource][t]+need.Amount > p.Resources[need.Resource].at(t) || now != 0 && need.State != 0 && now != need.State {
					return false
				}
			}
		}
		return true
	}
	var try func(i, end int)
	try = func(i, end int) {
		if i == n {
			found = append(found, append(Schedule(nil), s...))
			return
		}
		a := &p.Activities[i]
		for at := 0; at+a.Dur <= end && len(found) < most; at++ {
			if !fits(i, at) {
				continue
			}
			s[i] = at
			var states []int // before activity i
			for _, need := range a.Needs {
				for t := at; t < at+a.Dur; t++ {
					used[need.Resource][t] += need.Amount
					states = append(states, state[need.Resource][t])
					if need.State != 0 {
						state[need.Resource][t] = need.State
					}
				}
			}
			try(i+1, end)
			for _, need := range a.Needs {
				for t := at; t < at+a.Dur; t++ {
					used[need.Resource][t] -= need.Amount
					state[need.Resource][t], states = states[0], states[1:]
				}
			}
		}
	}
	for end := 1; end <= p.Horizon && len(found) == 0; end++ {
		try(0, end)
	}
	return found
}

// holdsIn reports whether a literal is true in a schedule.
func (l literal) holdsIn(s Schedule) bool {
	at := int32(s[activityOf(l.view)])
	if l.view&1 == 1 {
		at = -at
	}
	return at <= l.max
}

// excludes reports whether a nogood excludes a schedule.
func (n nogood) excludes(s Schedule) bool {
	for _, l := range n {
		if l.holdsIn(s) {
			return false
		}
	}
	return true
}

// A nogood that the search learns while it looks for a shorter schedule must not
// exclude one of the shortest: if a reason that the search notes for a bound is too
// general, some nogood does. From a misleading guide the search meets many
// conflicts. It must end with a shortest schedule, and then prove that there is no
// shorter one. The oracle tries every start of every activity.
func TestNogoodsExcludeNoShortestSchedule(t *testing.T) {
	const problems, most, guides = 200, 100, 20
	learned, solved := 0, 0
	for seed := range uint64(problems) {
		r := NewRandom(seed)
		p := hardProblem(r)
		best := shortest(p, most)
		m, why := compile(p)
		if why != nil {
			require.Empty(t, best, "seed %d: compile says %v", seed, why)
			continue
		}
		if len(best) == 0 {
			s := newSearch(newGenerator(m, 100_000), infinity)
			s.run(-infinity)
			require.Nil(t, s.best, "seed %d: no schedule exists", seed)
			require.True(t, s.proven, "seed %d: not proven", seed)
			continue
		}
		end := int32(best[0].Makespan(p))
		for range guides {
			s := newSearch(newGenerator(m, 100_000), end+1+int32(r.below(3)))
			for i := range m.n {
				s.guide = append(s.guide, m.es[i]+int32(r.below(int(end))))
			}
			s.run(end)
			for _, n := range s.nogoods.all {
				for _, b := range best {
					require.False(t, n.excludes(b), "seed %d: nogood %v excludes %v", seed, n, b)
				}
			}
			require.Equal(t, end, s.bestEnd, "seed %d", seed)
			learned += len(s.nogoods.all)
		}
		solved++

		s := newSearch(newGenerator(m, 100_000), end)
		s.run(-infinity)
		require.Nil(t, s.best, "seed %d: shorter than the shortest", seed)
		require.True(t, s.proven, "seed %d: not proven", seed)
	}
	t.Logf("%d problems with a schedule, %d nogoods", solved, learned)
	require.Greater(t, learned, 1000, "too few conflicts to test anything")
}
