package rcpsp

// ReduceCost moves activities to cheaper start times without making the schedule
// longer than s (a local search on earliness and tardiness costs). It returns a
// schedule that costs no more than s, and its [Problem.Cost].
//
// The error is that of [Problem.Validate], or that of [Check] if s violates a
// constraint of p. For what a budget pays, see [Budget].
func ReduceCost(p *Problem, s Schedule, b Budget) (Schedule, int, error) {
	if err := p.Validate(); err != nil {
		return nil, 0, err
	}
	if err := Check(p, s); err != nil {
		return nil, 0, err
	}
	m, infeasible := compile(p)
	if infeasible != nil {
		return nil, 0, infeasible // cannot happen: s is a schedule
	}
	if m.dist == nil {
		m.longestPaths()
		m.transpose()
	}
	c := newCostSearch(m, s, b)
	for gained := true; gained && !c.effort.exhausted(); {
		gained = c.moveEach()
	}
	// Give up after so many attempts in a row that gain nothing; small problems,
	// where an attempt costs little, get more of them.
	patience := 50 + 4*m.movable + 20_000/max(1, m.movable)
	for failed := 0; failed < patience && !c.effort.exhausted(); failed++ {
		if c.reinsert() {
			failed = 0
			c.moveEach()
		}
	}
	out := make(Schedule, m.n)
	for i, t := range c.start {
		out[i] = int(t)
	}
	return out, p.Cost(out), nil
}

// costSearch is a schedule that is improved in place.
type costSearch struct {
	m      *model
	effort effort // counts placements of an activity
	rnd    *Random
	f      profile
	start  []int32
	ls     []int32 // latest starts that keep the makespan
	out    []bool  // removed from the schedule at present
	list   []int32 // all activities that are not fixed
	group  []int32 // activities that the present move is about
	other  []int32 // by activity in group: its start before the move, or first its target
}

func newCostSearch(m *model, s Schedule, b Budget) *costSearch {
	c := &costSearch{m: m, start: make([]int32, m.n), ls: make([]int32, m.n), out: make([]bool, m.n),
		other: make([]int32, m.n), rnd: NewRandom(b.Seed),
		effort: newEffort(max(1, b.Schedules) * max(1, m.movable))}
	c.f.copyFrom(&m.base)
	end := int32(s.Makespan(m.p))
	for i, t := range s {
		c.start[i] = int32(t)
		c.ls[i] = min(m.ls[i], end-m.dur[i])
		if m.p.Horizon == 0 { // the solver's own horizon does not bind
			c.ls[i] = max(c.ls[i], int32(t))
		}
		if !m.fixed[i] {
			c.f.reserve(&m.demand[i], int32(t), m.dur[i])
			c.list = append(c.list, int32(i))
		}
	}
	return c
}

// cost returns the cost of starting activity i at t.
func (c *costSearch) cost(i, t int32) int { return c.m.p.Activities[i].Cost.At(int(t)) }

// window returns the earliest and latest start of i that the time lags to all
// activities allow, except those removed at present.
func (c *costSearch) window(i int32) (es, ls int32) {
	es, ls = c.m.es[i], c.ls[i]
	dist, distTo := c.m.dist[i], c.m.distTo[i]
	for j, t := range c.start {
		if c.out[j] || j == int(i) {
			continue
		}
		if d := distTo[j]; d != noPath {
			es = max(es, t+d)
		}
		if d := dist[j]; d != noPath {
			ls = min(ls, t-d)
		}
	}
	return es, ls
}

// cheapest returns the cheapest start of i in its window for which the resources
// have room, false if there is none or no effort is left. On each linear piece of
// the cost that is the feasible start nearest to the piece's cheaper end.
func (c *costSearch) cheapest(i int32) (int32, bool) {
	if !c.effort.spend(1) {
		return 0, false
	}
	es, ls := c.window(i)
	if es > ls {
		return 0, false
	}
	d, dur := &c.m.demand[i], c.m.dur[i]
	curve := c.m.p.Activities[i].Cost
	best, cost, found := int32(0), 0, false
	curve.pieces(int(es), int(ls), func(first, last int) bool {
		atFirst, atLast := curve.At(first), curve.At(last)
		if found && min(atFirst, atLast) >= cost {
			return true
		}
		t := int32(first)
		if atFirst <= atLast {
			if t = c.f.earliest(d, t, dur); t > int32(last) {
				return true
			}
		} else if t = c.f.latest(d, int32(last), dur); t < int32(first) {
			return true
		}
		if v := curve.At(int(t)); !found || v < cost {
			best, cost, found = t, v, true
		}
		return true
	})
	return best, found
}

// remove takes activity i out of the schedule.
func (c *costSearch) remove(i int32) {
	c.f.release(&c.m.demand[i], c.start[i], c.m.dur[i])
	c.out[i] = true
}

// place puts activity i, which was removed, back into the schedule at t.
func (c *costSearch) place(i, t int32) {
	c.f.reserve(&c.m.demand[i], t, c.m.dur[i])
	c.start[i], c.out[i] = t, false
}

// undo takes a move of the group back, of which the first k are placed again.
func (c *costSearch) undo(k int) {
	for _, j := range c.group[:k] {
		c.remove(j)
	}
	for _, j := range c.group {
		c.place(j, c.other[j])
	}
}
