package rcpsp

// order finds which activities must be listed before which, and whether the
// problem is plain: no maximum lags, no deadlines, nothing that a later
// decision could make an earlier one wrong. Plain problems get the faster
// generation scheme.
func (m *model) order() *InfeasibleError {
	m.exclusive()
	m.plain = true
	for i, a := range m.p.Activities {
		if a.Fixed {
			continue
		}
		if a.Deadline != 0 {
			m.plain = false
		}
		for _, s := range m.succ[i] {
			m.plain = m.plain && !m.held[s.to] && s.lag >= 0
		}
	}
	m.after = make([][]int32, m.n)
	for i := range m.succ {
		for _, s := range m.succ[i] {
			if !m.held[i] && int(s.to) != i {
				m.after[i] = append(m.after[i], s.to)
			}
		}
	}
	m.free = m.n
	for _, h := range m.held {
		if h {
			m.free--
		}
	}
	if len(m.list(func(i int32) float64 { return float64(m.lo[i]) })) < m.free {
		m.plain = false // lags go round: some of them are maximum lags
	}
	if m.plain {
		return nil
	}
	m.distances()
	if why := m.orient(); why != nil {
		return why
	}
	m.turn()
	for i := range m.after {
		m.after[i] = m.after[i][:0]
		for j := range m.dist {
			if i != j && !m.held[i] && !m.held[j] && m.precedes(i, j) {
				m.after[i] = append(m.after[i], int32(j))
			}
		}
	}
	return nil
}

// precedes says whether i never starts after j. Of two that always start
// together the one with the lower number counts as first.
func (m *model) precedes(i, j int) bool {
	d, back := m.dist[i][j], m.dist[j][i]
	return d > 0 || d == 0 && (back < 0 || i < j)
}

// list orders all activities not held, each after what precedes it, and where
// there is a choice by key, least first. It is shorter than m.free if the
// relation goes round.
func (m *model) list(key func(int32) float64) []int32 {
	waits := make([]int32, m.n)
	for i := range m.after {
		for _, j := range m.after[i] {
			waits[j]++
		}
	}
	keys := make([]float64, m.n)
	var ready, out []int32
	for i := range int32(m.n) {
		keys[i] = key(i)
		if waits[i] == 0 && !m.held[i] {
			ready = append(ready, i)
		}
	}
	for len(ready) > 0 {
		best := 0
		for k := range ready {
			if a, b := keys[ready[k]], keys[ready[best]]; a < b || a == b && ready[k] < ready[best] {
				best = k
			}
		}
		i := ready[best]
		ready[best] = ready[len(ready)-1]
		ready = ready[:len(ready)-1]
		out = append(out, i)
		for _, j := range m.after[i] {
			if waits[j]--; waits[j] == 0 {
				ready = append(ready, j)
			}
		}
	}
	return out
}
