package rcpsp

// An activityList holds every activity that is not fixed, each after all that
// precede it. The serial schedule generation scheme schedules them in this order.
type activityList []int32

// buildPrecedence finds which activities have to come before which in an activity
// list, and whether there are only minimum time lags. With maximum time lags it
// also computes the longest paths and orders disjunctive pairs.
func (m *model) buildPrecedence() *InfeasibleError {
	m.buildDisjunctive()
	m.follows = make([][]int32, m.n)
	m.minLagsOnly = true
	for i, a := range m.p.Activities {
		if a.Fixed {
			continue
		}
		if a.Deadline != 0 {
			m.minLagsOnly = false
		}
		for _, s := range m.succ[i] {
			m.minLagsOnly = m.minLagsOnly && !m.fixed[s.to] && s.lag >= 0
			if int(s.to) != i {
				m.follows[i] = append(m.follows[i], s.to)
			}
		}
	}
	if len(m.newActivityList(func(i int32) float64 { return float64(m.es[i]) })) < m.movable {
		m.minLagsOnly = false // the lags form a cycle, so some are maximum lags
	}
	if m.minLagsOnly {
		return nil
	}
	m.longestPaths()
	if err := m.orderDisjunctive(); err != nil {
		return err
	}
	m.transpose()
	for i := range m.follows {
		m.follows[i] = m.follows[i][:0]
		for j := range m.dist {
			if i != j && !m.fixed[i] && !m.fixed[j] && m.precedes(i, j) {
				m.follows[i] = append(m.follows[i], int32(j))
			}
		}
	}
	return nil
}

// precedes reports whether i never starts after j. Of two activities that always
// start together, the one with the lower number precedes the other.
func (m *model) precedes(i, j int) bool {
	d, back := m.dist[i][j], m.dist[j][i]
	return d > 0 || d == 0 && (back < 0 || i < j)
}

// newActivityList returns an activity list in which, of all activities whose
// predecessors are listed, the one with the least key comes next. Ties go to the
// lower number. If the precedence relation has a cycle, the list is shorter than
// m.movable.
func (m *model) newActivityList(key func(int32) float64) activityList {
	unlisted := make([]int32, m.n) // number of predecessors that are not listed yet
	for i := range m.follows {
		for _, j := range m.follows[i] {
			unlisted[j]++
		}
	}
	keys := make([]float64, m.n)
	var eligible []int32
	var list activityList
	for i := range int32(m.n) {
		keys[i] = key(i)
		if unlisted[i] == 0 && !m.fixed[i] {
			eligible = append(eligible, i)
		}
	}
	for len(eligible) > 0 {
		best := 0
		for k := range eligible {
			if a, b := keys[eligible[k]], keys[eligible[best]]; a < b || a == b && eligible[k] < eligible[best] {
				best = k
			}
		}
		i := eligible[best]
		eligible[best] = eligible[len(eligible)-1]
		eligible = eligible[:len(eligible)-1]
		list = append(list, i)
		for _, j := range m.follows[i] {
			if unlisted[j]--; unlisted[j] == 0 {
				eligible = append(eligible, j)
			}
		}
	}
	return list
}
