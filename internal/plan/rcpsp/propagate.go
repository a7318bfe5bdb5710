package rcpsp

// propagate tightens bounds until nothing changes. It returns false at a conflict,
// with the trail's conflict set. Nogoods, time lags and disjunctive pairs come
// first; a time table is rebuilt only when they have nothing left to do.
func (s *search) propagate() bool {
	limit := 1000 + 100*s.m.n
	for {
		for s.t.next < len(s.t.events) {
			if limit--; limit < 0 {
				// Bounds that creep up in small steps to a far horizon: not worth it.
				s.gaveUp = true
				s.t.next = len(s.t.events)
				s.clearQueue()
				return true
			}
			ev := s.t.events[s.t.next]
			s.t.next++
			if !s.nogoods.propagate(s.t, ev) || !s.propagateLags(ev.view, ev.max) || !s.propagateDisjunctive(activityOf(ev.view)) {
				return s.fail()
			}
			for _, k := range s.tablesOf[activityOf(ev.view)] {
				s.enqueue(k)
			}
		}
		if len(s.queue) == 0 {
			return true
		}
		k := s.queue[0]
		s.queue = s.queue[:copy(s.queue, s.queue[1:])]
		s.queued[k] = false
		if !s.tables[k].propagate(s.t) {
			return s.fail()
		}
	}
}

// propagateRoot propagates the windows that the search starts with, which no event
// of the trail stands for.
func (s *search) propagateRoot() bool {
	for i := range int32(s.m.n) {
		if !s.propagateLags(2*i, s.t.bound[2*i]) || !s.propagateLags(2*i+1, s.t.bound[2*i+1]) || !s.propagateDisjunctive(i) {
			return s.fail()
		}
	}
	return s.propagate()
}

// fail ends a propagation at a conflict. A conflict at the root is the proof that
// nothing better exists; the activities in it are remembered for the report.
func (s *search) fail() bool {
	if len(s.t.levels) == 0 && !s.gaveUp {
		s.analysis.bumpRootConflict(s.t, &s.nogoods)
	}
	s.clearQueue()
	return false
}

func (s *search) enqueue(table int32) {
	if !s.queued[table] {
		s.queued[table] = true
		s.queue = append(s.queue, table)
	}
}

func (s *search) clearQueue() {
	for _, k := range s.queue {
		s.queued[k] = false
	}
	s.queue = s.queue[:0]
}

// propagateLags passes a new bound on: an earliest start along the time lags from
// the activity, a latest start along the time lags to it.
func (s *search) propagateLags(view, bound int32) bool {
	i := activityOf(view)
	if view&1 == 1 {
		for _, a := range s.m.succ[i] {
			if !s.setByLag(literal{2*a.to + 1, bound - a.lag}, view, a.lag) {
				return false
			}
		}
		return true
	}
	for _, a := range s.m.pred[i] {
		if !s.setByLag(literal{2 * a.to, bound - a.lag}, view, a.lag) {
			return false
		}
	}
	return true
}

// setByLag makes l true because of a time lag and the bound of the view from.
func (s *search) setByLag(l literal, from, lag int32) bool {
	if s.t.set(l, reason{kind: fromLag, a: from, b: lag}) {
		return true
	}
	s.t.conflict = append(s.t.conflict, literal{from, l.max + lag})
	return false
}

// propagateDisjunctive keeps activity i apart from those it cannot run with.
func (s *search) propagateDisjunctive(i int32) bool {
	for _, j := range s.m.disjunctive[i] {
		if !s.orderPair(i, j) || !s.orderPair(j, i) {
			return false
		}
	}
	return true
}

// orderPair puts j before i if i can no longer come before j.
func (s *search) orderPair(i, j int32) bool {
	t, m := s.t, s.m
	if t.earliest(i)+m.dur[i] <= t.latest(j) {
		return true
	}
	// The reason is earliest(i) + dur(i) > latest(j). Any slack in it makes the
	// explanation more general; it is given to the bound of i.
	slack := t.earliest(i) + m.dur[i] - t.latest(j) - 1
	notBefore := [2]literal{startAtLeast(i, t.earliest(i)-slack), startAtMost(j, t.latest(j))}
	if v := t.earliest(j) + m.dur[j]; v > t.earliest(i) {
		if !t.setBecause(startAtLeast(i, v), notBefore[0], notBefore[1], startAtLeast(j, v-m.dur[j])) {
			return false
		}
	}
	if v := t.latest(i) - m.dur[j]; v < t.latest(j) {
		if !t.setBecause(startAtMost(j, v), notBefore[0], notBefore[1], startAtMost(i, v+m.dur[j])) {
			return false
		}
	}
	return true
}
