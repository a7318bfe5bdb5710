package rcpsp

// forwardMaxLags is the serial scheme with an unscheduling step for maximum time
// lags (after Franck, Neumann and Schwindt): an activity that only fits after its
// latest start delays the activities that impose it, and everything that starts
// since then is scheduled anew. It returns infinity if that does not settle.
func (g *generator) forwardMaxLags(list activityList) int32 {
	m := g.m
	g.f.copyFrom(&m.base)
	copy(g.floor, m.es)
	copy(g.es, m.es)
	copy(g.ls, m.ls)
	copy(g.scheduled, m.fixed)
	for _, i := range list {
		g.start[i] = m.es[i]
	}
	attempts := 3*len(list)/2 + 20 // set on the test instances as a whole
	for k := 0; k < len(list); k++ {
		i := list[k]
		if g.scheduled[i] {
			continue
		}
		t := g.f.earliest(&m.demand[i], g.es[i], m.dur[i])
		if t > g.ls[i] {
			if attempts--; attempts < 0 || !g.unschedule(list, i, t) {
				return infinity
			}
			k = -1 // restart: what is still scheduled is skipped
			continue
		}
		g.f.reserve(&m.demand[i], t, m.dur[i])
		g.start[i], g.scheduled[i] = t, true
		g.tighten(i, t)
	}
	return g.makespan()
}

// tighten narrows all windows by the longest paths from and to activity i, which
// is scheduled at t.
func (g *generator) tighten(i, t int32) {
	for j, d := range g.m.dist[i] {
		if d != noPath && t+d > g.es[j] {
			g.es[j] = t + d
		}
	}
	for j, d := range g.m.distTo[i] {
		if d != noPath && t-d < g.ls[j] {
			g.ls[j] = t - d
		}
	}
}

// unschedule makes room for activity i at t: the scheduled activities that keep
// its latest start below t are delayed, and everything from the first of them on
// is unscheduled. It returns false if something that cannot move is in the way: a
// window or a fixed activity.
func (g *generator) unschedule(list activityList, i, t int32) bool {
	m := g.m
	if t > m.ls[i] {
		return false
	}
	first := infinity // earliest start of a delayed activity
	for _, j := range list {
		d := m.dist[i][j]
		if g.scheduled[j] && d != noPath && g.start[j] < t+d {
			g.floor[j] = max(g.floor[j], t+d)
			if g.floor[j] > m.ls[j] {
				return false
			}
			first = min(first, g.start[j])
		}
	}
	if first == infinity {
		return false
	}
	for _, j := range list {
		if g.scheduled[j] && g.start[j] >= first {
			g.scheduled[j] = false
		}
	}
	g.rebuild(list)
	return true
}

// rebuild computes the profile, and the windows of what is not scheduled, from what is
// still scheduled and from the floors. Nobody reads the windows of what is scheduled.
func (g *generator) rebuild(list activityList) {
	m := g.m
	g.f.copyFrom(&m.base)
	copy(g.es, g.floor)
	copy(g.ls, m.ls)
	g.open = g.open[:0]
	for _, j := range list {
		if !g.scheduled[j] {
			g.open = append(g.open, j)
		}
	}
	for _, j := range list {
		from := m.dist[j]
		if !g.scheduled[j] {
			if floor := g.floor[j]; floor > m.es[j] {
				for _, k := range g.open {
					if d := from[k]; d != noPath && floor+d > g.es[k] {
						g.es[k] = floor + d
					}
				}
			}
			continue
		}
		t, to := g.start[j], m.distTo[j]
		g.f.reserve(&m.demand[j], t, m.dur[j])
		for _, k := range g.open {
			if d := from[k]; d != noPath && t+d > g.es[k] {
				g.es[k] = t + d
			}
			if d := to[k]; d != noPath && t-d < g.ls[k] {
				g.ls[k] = t - d
			}
		}
	}
}
