package rcpsp

// buildDisjunctive finds the disjunctive pairs: two activities that can never run
// at the same time, because together they need more than the largest capacity of
// a resource, or two different states of it.
func (m *model) buildDisjunctive() {
	m.disjunctive = make([][]int32, m.n)
	for i := range m.needs {
		for j := range i {
			if m.fixed[i] && m.fixed[j] || m.conflictingResource(i, j) < 0 {
				continue
			}
			m.disjunctive[i] = append(m.disjunctive[i], int32(j))
			m.disjunctive[j] = append(m.disjunctive[j], int32(i))
		}
	}
}

// conflictingResource returns the first resource that activities i and j cannot
// use at the same time, or -1.
func (m *model) conflictingResource(i, j int) int {
	for _, a := range m.needs[i] {
		for _, b := range m.needs[j] {
			if a.Resource != b.Resource {
				continue
			}
			if a.State != 0 && b.State != 0 && a.State != b.State {
				return a.Resource
			}
			if a.Amount > 0 && b.Amount > 0 && int32(a.Amount+b.Amount) > m.maxCap[a.Resource] {
				return a.Resource
			}
		}
	}
	return -1
}

// orderDisjunctive adds a time lag for each disjunctive pair whose longest paths
// allow only one order, until no more follow, and tightens the windows. It returns
// an error if a pair allows neither order.
func (m *model) orderDisjunctive() *InfeasibleError {
	for changed := true; changed; {
		changed = false
		for i := range m.disjunctive {
			for _, j := range m.disjunctive[i] {
				if m.dist[i][j]+m.dur[j] <= 0 { // i may come after j
					continue
				}
				if m.dist[j][i]+m.dur[i] > 0 { // and j may not come after i
					return &InfeasibleError{Disjunction: &Disjunction{
						First: min(i, int(j)), Second: max(i, int(j)), Resource: m.conflictingResource(i, int(j))}}
				}
				if m.dist[i][j] < m.dur[i] {
					m.addLag(int32(i), j, m.dur[i])
					changed = true
				}
			}
		}
	}
	if err := m.raiseEarliest(); err != nil {
		return &InfeasibleError{} // the added lags are not the caller's, so no cycle is named
	}
	m.lowerLatest()
	return nil
}

// addLag adds a time lag that follows from the others, also to the longest paths.
// It closes no cycle: orderDisjunctive has checked that the order is allowed.
func (m *model) addLag(i, j, lag int32) {
	m.succ[i] = append(m.succ[i], arc{j, lag})
	m.pred[j] = append(m.pred[j], arc{i, lag})
	for a := range m.dist {
		to := m.dist[a][i]
		if to == noPath {
			continue
		}
		for b, from := range m.dist[j] {
			if from != noPath && to+lag+from > m.dist[a][b] {
				m.dist[a][b] = to + lag + from
			}
		}
	}
}
