package rcpsp

// Justification moves every activity of a schedule as far as possible to one side,
// which makes a schedule at most as long and often shorter. A right justification
// followed by a left justification is one forward-backward improvement.

// justifyLeft generates the schedule of list forward and returns its makespan,
// infinity if there is none. It keeps the schedule if it is the best so far. It
// reorders list for the right justification that may follow.
func (g *genetic) justifyLeft(list activityList) int32 {
	end := g.gen.forward(list)
	if end >= infinity {
		return end
	}
	g.keep(end)
	if g.gen.m.minLagsOnly {
		g.gen.sortByEnd(list)
	} else {
		g.gen.sortByStart(list)
	}
	return end
}

// justifyRight generates the schedule of list backward, from the best makespan so
// far, and returns its length, infinity if there is none. It reorders list for the
// left justification that may follow.
func (g *genetic) justifyRight(list activityList) int32 {
	end := min(g.bestEnd, g.gen.m.horizon)
	if !g.gen.backward(list, end) {
		return infinity
	}
	first := infinity
	for _, i := range list {
		first = min(first, g.gen.start[i])
	}
	g.gen.sortByStart(list)
	return end - first
}

// improve repeats the forward-backward improvement of the search's best schedule
// while that shortens it and the effort lasts for two more passes. The search
// fixes each start for a reason, and not every reason is still valid at the end.
func (s *search) improve() {
	g := s.gen
	list := s.m.newActivityList(func(i int32) float64 { return float64(s.m.es[i]) })
	for improved := true; improved && g.effort.left() >= 2; {
		improved = false
		copy(g.start, s.best)
		g.sortByEnd(list)
		if !g.backward(list, s.bestEnd) {
			return
		}
		g.sortByStart(list)
		if end := g.forward(list); end < s.bestEnd && g.withinHorizon() {
			s.bestEnd, improved = end, true
			copy(s.best, g.start)
		}
	}
}
