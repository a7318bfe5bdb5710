package rcpsp

// timeWindows computes the earliest and latest start of each activity from the
// time lags (longest paths, Bellman-Ford). It returns an error if the lags contain
// a cycle of positive length or if a window is empty. Cycles are checked first,
// because the propagation would not end with one.
func (m *model) timeWindows() *InfeasibleError {
	if cycle := m.positiveCycle(); cycle != nil {
		return &InfeasibleError{Cycle: cycle}
	}
	m.es, m.ls = make([]int32, m.n), make([]int32, m.n)
	for i, a := range m.p.Activities {
		m.es[i] = int32(max(0, a.Release))
		m.ls[i] = m.horizon - m.dur[i]
		if a.Deadline != 0 {
			m.ls[i] = min(m.ls[i], int32(a.Deadline-a.Dur))
		}
		if a.Fixed {
			m.es[i], m.ls[i] = int32(a.Start), int32(a.Start)
		}
	}
	if err := m.raiseEarliest(); err != nil {
		return err
	}
	m.lowerLatest()
	return nil
}

// raiseEarliest raises earliest starts until every time lag holds. It returns an
// error, with the lags that lead to it, if one rises above its latest start.
func (m *model) raiseEarliest() *InfeasibleError {
	raisedBy := make([]int32, m.n) // the activity whose lag raised this one last
	queue := make([]int32, m.n)
	queued := make([]bool, m.n)
	for i := range queue {
		raisedBy[i] = -1
		queue[i], queued[i] = int32(i), true
	}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		queued[i] = false
		for _, a := range m.succ[i] {
			t := m.es[i] + a.lag
			if t <= m.es[a.to] {
				continue
			}
			m.es[a.to], raisedBy[a.to] = t, i
			if t > m.ls[a.to] {
				return m.emptyWindow(a.to, raisedBy)
			}
			if !queued[a.to] {
				queued[a.to] = true
				queue = append(queue, a.to)
			}
		}
	}
	for i := range m.es {
		if m.es[i] > m.ls[i] {
			return m.emptyWindow(int32(i), raisedBy)
		}
	}
	return nil
}

// lowerLatest lowers latest starts until every time lag holds. It ends because
// raiseEarliest has already found a schedule that satisfies the lags.
func (m *model) lowerLatest() {
	for changed := true; changed; {
		changed = false
		for i := m.n - 1; i >= 0; i-- {
			if m.fixed[i] {
				continue
			}
			for _, a := range m.succ[i] {
				if t := m.ls[a.to] - a.lag; t < m.ls[i] {
					m.ls[i], changed = t, true
				}
			}
		}
	}
}

// emptyWindow explains why the earliest start of activity last is above its latest
// start: it walks back along the lags that raised it, to the activity whose own
// window started the chain.
func (m *model) emptyWindow(last int32, raisedBy []int32) *InfeasibleError {
	var back []int32
	for i := last; i >= 0; i = raisedBy[i] {
		back = append(back, i)
	}
	first := int(back[len(back)-1])
	release := max(0, m.p.Activities[first].Release)
	if m.fixed[first] {
		release = m.p.Activities[first].Start
	}
	cycle := []Lag{{Origin, first, release}}
	cycle = append(cycle, m.lagsAlong(back)...)
	return &InfeasibleError{Cycle: append(cycle, Lag{int(last), Origin, -int(m.ls[last])})}
}

// lagsAlong returns the time lags along a path. The path is given from its last
// activity to its first, the lags are returned from first to last.
func (m *model) lagsAlong(back []int32) []Lag {
	var lags []Lag
	for k := len(back) - 1; k > 0; k-- {
		for _, a := range m.succ[back[k]] {
			if a.to == back[k-1] {
				lags = append(lags, Lag{int(back[k]), int(a.to), int(a.lag)})
			}
		}
	}
	return lags
}

// positiveCycle returns a cycle of time lags of positive length, or nil. It runs
// Bellman-Ford from all activities at once: after n rounds without a cycle nothing
// changes any more. Windows and fixed starts do not matter here.
func (m *model) positiveCycle() []Lag {
	length := make([]int64, m.n)
	from := make([]int32, m.n)
	for i := range from {
		from[i] = -1
	}
	last := int32(-1)
	for range m.n + 1 {
		last = -1
		for i := range m.succ {
			for _, a := range m.succ[i] {
				if t := length[i] + int64(a.lag); t > length[a.to] {
					length[a.to], from[a.to], last = t, int32(i), a.to
				}
			}
		}
		if last < 0 {
			return nil
		}
	}
	for range m.n { // n steps back from here end on the cycle
		last = from[last]
	}
	back := []int32{last}
	for i := from[last]; i != last; i = from[i] {
		back = append(back, i)
	}
	return m.lagsAlong(append(back, last))
}

// longestPaths computes dist, the length of the longest path of time lags between
// each two activities (Floyd-Warshall, skipping rows that no path reaches).
func (m *model) longestPaths() {
	all := make([]int32, m.n*m.n)
	m.dist = make([][]int32, m.n)
	for i := range m.dist {
		m.dist[i] = all[i*m.n : (i+1)*m.n]
		for j := range m.dist[i] {
			m.dist[i][j] = noPath
		}
		m.dist[i][i] = 0
		for _, a := range m.succ[i] {
			m.dist[i][a.to] = max(m.dist[i][a.to], a.lag)
		}
	}
	for k := range m.dist {
		through := m.dist[k]
		for i := range m.dist {
			row := m.dist[i]
			d := row[k]
			if d == noPath || i == k {
				continue
			}
			for j, e := range through {
				if e != noPath && d+e > row[j] {
					row[j] = d + e
				}
			}
		}
	}
}

// transpose computes distTo from dist. Reading down a column of a large matrix
// would miss the processor's cache at every step.
func (m *model) transpose() {
	all := make([]int32, m.n*m.n)
	m.distTo = make([][]int32, m.n)
	for i := range m.distTo {
		m.distTo[i] = all[i*m.n : (i+1)*m.n]
		for j := range m.dist {
			m.distTo[i][j] = m.dist[j][i]
		}
	}
}
