package rcpsp

import "slices"

// generator turns activity lists into schedules by the serial schedule generation
// scheme. It keeps its memory from one schedule to the next, and spends one unit
// of effort for each.
type generator struct {
	m      *model
	effort effort
	start  []int32 // the schedule generated last
	f      profile
	keys   []int64 // for sorting

	// For maximum time lags, by activity: what is scheduled, a lower bound on the
	// start after unscheduling, and the least and the most that the start can be for
	// others: the start itself where it is scheduled, else the floor and infinity.
	scheduled          []bool
	floor, least, most []int32
	old                activityList // for sorting
}

func newGenerator(m *model, schedules int) *generator {
	g := &generator{m: m, effort: newEffort(schedules), start: make([]int32, m.n), keys: make([]int64, 0, m.n),
		scheduled: make([]bool, m.n), floor: make([]int32, m.n), least: make([]int32, m.n), most: make([]int32, m.n)}
	copy(g.start, m.es) // fixed activities keep their start
	return g
}

// forward schedules each activity of the list, first to last, as early as the
// activities scheduled before it allow. It returns the makespan; infinity if an
// activity fits nowhere or no effort is left.
func (g *generator) forward(list activityList) int32 {
	if !g.effort.spend(1) {
		return infinity
	}
	m := g.m
	if !m.minLagsOnly {
		return g.forwardMaxLags(list)
	}
	g.f.copyFrom(&m.base)
	for _, i := range list {
		t := m.es[i]
		for _, a := range m.pred[i] {
			t = max(t, g.start[a.to]+a.lag)
		}
		t = g.f.earliest(&m.demand[i], t, m.dur[i])
		if t >= infinity {
			return infinity
		}
		g.f.reserve(&m.demand[i], t, m.dur[i])
		g.start[i] = t
	}
	return g.makespan()
}

// backward schedules each activity of the list, last to first, as late as the
// activities scheduled before it allow, so that all end by a given time. Starts
// may become negative: only the order of the result is used. It returns false if
// an activity fits nowhere or no effort is left.
func (g *generator) backward(list activityList, end int32) bool {
	if !g.effort.spend(1) {
		return false
	}
	m := g.m
	g.f.copyFrom(&m.base)
	for _, i := range slices.Backward(list) {
		t := end - m.dur[i]
		for _, a := range m.succ[i] {
			if !m.fixed[a.to] {
				t = min(t, g.start[a.to]-a.lag)
			}
		}
		t = g.f.latest(&m.demand[i], t, m.dur[i])
		if t <= -infinity {
			return false
		}
		g.f.reserve(&m.demand[i], t, m.dur[i])
		g.start[i] = t
	}
	return true
}

// makespan returns the end of the activity that ends last.
func (g *generator) makespan() int32 {
	end := -infinity
	for i, t := range g.start {
		end = max(end, t+g.m.dur[i])
	}
	return end
}

// withinHorizon reports whether the schedule generated last keeps the horizon that
// the problem itself asks for. The solver's own horizon does not bind.
func (g *generator) withinHorizon() bool {
	if g.m.p.Horizon == 0 {
		return true
	}
	for i, t := range g.start {
		if !g.m.fixed[i] && t+g.m.dur[i] > g.m.horizon {
			return false
		}
	}
	return true
}

// sortByStart sorts list by the starts of the schedule generated last. Ties keep
// their order, so that precedence still holds.
func (g *generator) sortByStart(list activityList) {
	g.sortBy(list, func(i int32) int32 { return g.start[i] })
}

// sortByEnd is sortByStart by the ends.
func (g *generator) sortByEnd(list activityList) {
	g.sortBy(list, func(i int32) int32 { return g.start[i] + g.m.dur[i] })
}

// sortBy is a stable sort without a comparison function: the upper half of each
// word holds the key and the lower half the position in the list.
func (g *generator) sortBy(list activityList, key func(int32) int32) {
	g.keys = g.keys[:0]
	for k, i := range list {
		g.keys = append(g.keys, int64(key(i))<<32|int64(k))
	}
	slices.Sort(g.keys)
	g.old = append(g.old[:0], list...)
	for k, v := range g.keys {
		list[k] = g.old[v&0xffffffff]
	}
}
