package rcpsp

// windows narrows each activity's window by the lags (Bellman-Ford). Lags that go
// round are looked for first: without them the narrowing ends.
func (m *model) windows() *InfeasibleError {
	if loop := m.loop(); loop != nil {
		return &InfeasibleError{Cycle: loop}
	}
	m.lo, m.hi = make([]int32, m.n), make([]int32, m.n)
	for i, a := range m.p.Activities {
		m.lo[i] = int32(max(0, a.Release))
		m.hi[i] = m.horizon - m.dur[i]
		if a.Deadline != 0 {
			m.hi[i] = min(m.hi[i], int32(a.Deadline-a.Dur))
		}
		if a.Fixed {
			m.lo[i], m.hi[i] = int32(a.Start), int32(a.Start)
		}
	}
	if why := m.settle(m.lo); why != nil {
		return why
	}
	m.hi = m.latest(m.hi)
	return nil
}

// settle raises earliest starts until every lag holds.
func (m *model) settle(lo []int32) *InfeasibleError {
	from := make([]int32, m.n) // which lag raised it last
	for i := range from {
		from[i] = -1
	}
	queue := make([]int32, m.n)
	in := make([]bool, m.n)
	for i := range queue {
		queue[i], in[i] = int32(i), true
	}
	for len(queue) > 0 {
		i := queue[0]
		queue = queue[1:]
		in[i] = false
		for _, a := range m.succ[i] {
			t := lo[i] + a.lag
			if t <= lo[a.to] {
				continue
			}
			lo[a.to], from[a.to] = t, i
			if t > m.hi[a.to] {
				return m.tooTight(a.to, from)
			}
			if !in[a.to] {
				in[a.to] = true
				queue = append(queue, a.to)
			}
		}
	}
	for i := range lo {
		if lo[i] > m.hi[i] {
			return m.tooTight(int32(i), from)
		}
	}
	return nil
}

// latest lowers latest starts until every lag holds. It ends, because settle has
// found a schedule that keeps the lags.
func (m *model) latest(hi []int32) []int32 {
	for again := true; again; {
		again = false
		for i := m.n - 1; i >= 0; i-- {
			if m.held[i] {
				continue
			}
			for _, a := range m.succ[i] {
				if t := hi[a.to] - a.lag; t < hi[i] {
					hi[i], again = t, true
				}
			}
		}
	}
	return hi
}

// tooTight walks back along the lags that raised an activity past its window, to
// the window that began it all.
func (m *model) tooTight(last int32, from []int32) *InfeasibleError {
	var back []int32
	for i := last; i >= 0; i = from[i] {
		back = append(back, i)
	}
	first := int(back[len(back)-1])
	lags := []Lag{{Origin, first, m.opens(first)}}
	lags = append(lags, m.lagsAlong(back)...)
	lags = append(lags, Lag{int(last), Origin, -int(m.hi[last])})
	return &InfeasibleError{Cycle: lags}
}

// opens is the earliest start that an activity's own window allows.
func (m *model) opens(i int) int {
	if a := m.p.Activities[i]; a.Fixed {
		return a.Start
	}
	return max(0, m.p.Activities[i].Release)
}

// lagsAlong turns a walk against the lags into the lags walked, first one first.
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

// loop finds lags that go round and add up to more than nothing (Bellman-Ford
// from everywhere at once; held starts do not matter here).
func (m *model) loop() []Lag {
	lo := make([]int64, m.n)
	from := make([]int32, m.n)
	for i := range from {
		from[i] = -1
	}
	last := int32(-1)
	for range m.n + 1 {
		last = -1
		for i := range m.succ {
			for _, a := range m.succ[i] {
				if t := lo[i] + int64(a.lag); t > lo[a.to] {
					lo[a.to], from[a.to], last = t, int32(i), a.to
				}
			}
		}
		if last < 0 {
			return nil
		}
	}
	for range m.n { // from here every step back is on the loop or leads to it
		last = from[last]
	}
	back := []int32{last}
	for i := from[last]; i != last; i = from[i] {
		back = append(back, i)
	}
	return m.lagsAlong(append(back, last))
}

// distances finds the longest path of lags between each two activities
// (Floyd-Warshall, skipping rows that no path reaches).
func (m *model) distances() {
	all := make([]int32, m.n*m.n)
	m.dist = make([][]int32, m.n)
	for i := range m.dist {
		m.dist[i] = all[i*m.n : (i+1)*m.n]
		for j := range m.dist[i] {
			m.dist[i][j] = noLag
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
			if d == noLag || i == k {
				continue
			}
			for j, e := range through {
				if e != noLag && d+e > row[j] {
					row[j] = d + e
				}
			}
		}
	}
}

// turn lays the distances out the other way as well: to go down a column of a
// large matrix is to miss the cache at every step.
func (m *model) turn() {
	all := make([]int32, m.n*m.n)
	m.back = make([][]int32, m.n)
	for i := range m.back {
		m.back[i] = all[i*m.n : (i+1)*m.n]
		for j := range m.dist {
			m.back[i][j] = m.dist[j][i]
		}
	}
}
