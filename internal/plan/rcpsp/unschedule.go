package rcpsp

// forwardMaxLags is the serial scheme with an unscheduling step for maximum time
// lags (after Franck, Neumann and Schwindt): an activity that only fits after its
// latest start delays the activities that impose it, and everything that starts
// since then is scheduled anew. It returns infinity if that does not settle.
//
// The window of an activity is computed when the activity is scheduled, from what is
// scheduled then. So unscheduling has no windows to restore.
func (g *generator) forwardMaxLags(list activityList) int32 {
	m := g.m
	g.f.copyFrom(&m.base)
	copy(g.floor, m.es)
	copy(g.least, m.es)
	copy(g.scheduled, m.fixed)
	for i := range g.most {
		g.most[i] = infinity
	}
	for _, i := range list {
		g.start[i] = m.es[i]
	}
	attempts := 3*len(list)/2 + 20 // set on the test instances as a whole
	for k := 0; k < len(list); k++ {
		i := list[k]
		if g.scheduled[i] {
			continue
		}
		es, ls := g.window(i)
		t := g.f.earliest(&m.demand[i], es, m.dur[i])
		if t > ls {
			if attempts--; attempts < 0 || !g.unschedule(list, i, t) {
				return infinity
			}
			k = -1 // restart: what is still scheduled is skipped
			continue
		}
		g.f.reserve(&m.demand[i], t, m.dur[i])
		g.start[i], g.scheduled[i] = t, true
		g.least[i], g.most[i] = t, t
	}
	return g.makespan()
}

// window returns the earliest and latest start of activity i that the longest paths from
// and to all others allow: from where they are scheduled, or not before their floors.
// Sums with noPath do not overflow, and never decide.
func (g *generator) window(i int32) (es, ls int32) {
	n := g.m.n
	es, ls = g.floor[i], g.m.ls[i]
	to, from := g.m.distTo[i][:n], g.m.dist[i][:n]
	least, most := g.least[:n], g.most[:n]
	for j := range n {
		es = max(es, least[j]+to[j])
		ls = min(ls, most[j]-from[j])
	}
	return es, ls
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
			g.least[j], g.most[j] = g.floor[j], infinity
			g.f.release(&m.demand[j], g.start[j], m.dur[j])
		}
	}
	return true
}
