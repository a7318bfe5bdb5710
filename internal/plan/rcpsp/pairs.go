package rcpsp

// exclusive finds the pairs of activities that cannot run at one time: together
// they need more than there ever is, or two states of one resource.
func (m *model) exclusive() {
	m.pairs = make([][]int32, m.n)
	for i := range m.cons {
		for j := range i {
			if m.held[i] && m.held[j] || m.clash(i, j) < 0 {
				continue
			}
			m.pairs[i] = append(m.pairs[i], int32(j))
			m.pairs[j] = append(m.pairs[j], int32(i))
		}
	}
}

// clash is the resource that two activities cannot share; -1 if there is none.
func (m *model) clash(i, j int) int {
	for _, a := range m.cons[i] {
		for _, b := range m.cons[j] {
			if a.Resource != b.Resource {
				continue
			}
			if a.State != 0 && b.State != 0 && a.State != b.State {
				return a.Resource
			}
			if a.Amount > 0 && b.Amount > 0 && int32(a.Amount+b.Amount) > m.maxRes[a.Resource] {
				return a.Resource
			}
		}
	}
	return -1
}

// orient finds the pairs whose lags allow only one order, and makes that order a
// lag, until no more follow. Where they allow neither there is no schedule.
func (m *model) orient() *InfeasibleError {
	for again := true; again; {
		again = false
		for i := range m.pairs {
			for _, j := range m.pairs[i] {
				if m.dist[i][j]+m.dur[j] <= 0 { // i may come after j
					continue
				}
				if m.dist[j][i]+m.dur[i] > 0 {
					return &InfeasibleError{Disjunction: &Disjunction{min(i, int(j)), max(i, int(j)), m.clash(i, int(j))}}
				}
				if m.dist[i][j] < m.dur[i] {
					m.addLag(int32(i), j, m.dur[i])
					again = true
				}
			}
		}
	}
	if why := m.settle(m.lo); why != nil {
		return &InfeasibleError{}
	}
	m.hi = m.latest(m.hi)
	return nil
}

// addLag adds a lag that was not given but follows, to the distances too. It
// closes no loop, or orient would have seen that the order is not allowed.
func (m *model) addLag(i, j, lag int32) {
	m.succ[i] = append(m.succ[i], arc{j, lag})
	m.pred[j] = append(m.pred[j], arc{i, lag})
	for a := range m.dist {
		to := m.dist[a][i]
		if to == noLag {
			continue
		}
		for b, from := range m.dist[j] {
			if from != noLag && to+lag+from > m.dist[a][b] {
				m.dist[a][b] = to + lag + from
			}
		}
	}
}
