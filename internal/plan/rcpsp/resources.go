package rcpsp

import "slices"

// buildResources packs the needs of all activities, enters the calendars and the
// fixed activities in the base profile, and checks that each activity fits
// somewhere in its window.
func (m *model) buildResources() *InfeasibleError {
	m.packDemands()
	m.buildBaseProfile()
	return m.fitAlone()
}

// packDemands fills m.demand. A resource has one lane of 16 bits, four to a word.
// A state of a resource has one counter of 8 bits in the state words.
func (m *model) packDemands() {
	resources := len(m.p.Resources)
	words := (resources + 3) / 4

	type setting struct{ resource, state int }
	counter := map[setting]int{}         // position of each state's counter
	statesOf := make([][]int, resources) // counters of a resource's states
	for i := range m.needs {
		for _, nd := range m.needs[i] {
			s := setting{nd.Resource, nd.State}
			if _, ok := counter[s]; !ok && nd.State != 0 {
				counter[s] = len(counter)
				statesOf[nd.Resource] = append(statesOf[nd.Resource], counter[s])
			}
		}
	}
	bits := 8
	if m.n > 255 { // more activities than a counter of 8 bits can count
		bits = 16
	}
	stateWords := (len(counter)*bits + 63) / 64
	m.base = profile{words: words, stateWords: stateWords}

	m.demand = make([]demand, m.n)
	for i := range m.demand {
		d := &m.demand[i]
		d.amounts = make([]uint64, words)
		d.states, d.excluded = make([]uint64, stateWords), make([]uint64, stateWords)
		d.none = len(m.needs[i]) == 0
		for _, nd := range m.needs[i] {
			d.amounts[nd.Resource/4] |= uint64(nd.Amount) << lane(nd.Resource)
			if nd.State == 0 {
				continue
			}
			own := counter[setting{nd.Resource, nd.State}]
			d.states[own*bits/64] += 1 << (own * bits % 64)
			for _, other := range statesOf[nd.Resource] {
				if other != own {
					d.excluded[other*bits/64] |= (1<<bits - 1) << (other * bits % 64)
				}
			}
		}
	}
}

// buildBaseProfile fills m.base and m.maxCap. Fixed activities may use more than
// the capacity, because they describe what has happened; then nothing is free.
func (m *model) buildBaseProfile() {
	f := &m.base
	m.maxCap = make([]int32, len(m.p.Resources))
	f.at = []int32{-infinity}
	for k, r := range m.p.Resources {
		m.maxCap[k] = int32(r.Cap)
		for _, c := range r.Changes {
			f.at = append(f.at, int32(c.At))
			m.maxCap[k] = max(m.maxCap[k], int32(c.Cap))
		}
	}
	for i := range m.fixed {
		if m.fixed[i] && !m.demand[i].none {
			f.at = append(f.at, m.es[i], m.es[i]+m.dur[i])
		}
	}
	slices.Sort(f.at)
	f.at = slices.Compact(f.at)
	f.free = make([]uint64, len(f.at)*f.words)
	f.state = make([]uint64, len(f.at)*f.stateWords)
	free := make([]int, len(m.p.Resources))
	for k, t := range f.at {
		for r := range free {
			free[r] = m.p.Resources[r].at(int(t))
		}
		for i := range m.fixed {
			if !m.fixed[i] || t < m.es[i] || t >= m.es[i]+m.dur[i] {
				continue
			}
			for _, nd := range m.needs[i] {
				free[nd.Resource] -= nd.Amount
			}
			for w, count := range m.demand[i].states {
				f.state[k*f.stateWords+w] += count
			}
		}
		for r := range free {
			f.free[k*f.words+r/4] |= uint64(max(0, free[r])) << lane(r)
		}
	}
}

// fitAlone tightens each window to the starts at which the activity fits beside
// the fixed ones alone, until time lags and calendars agree. It returns an error
// if a window becomes empty or if a resource is overloaded.
func (m *model) fitAlone() *InfeasibleError {
	for {
		changed := false
		for i := range m.fixed {
			if m.fixed[i] {
				continue
			}
			es := m.base.earliest(&m.demand[i], m.es[i], m.dur[i])
			ls := m.base.latest(&m.demand[i], m.ls[i], m.dur[i])
			if es > m.ls[i] || ls < m.es[i] {
				return m.unplaceable(i)
			}
			changed = changed || es > m.es[i] || ls < m.ls[i]
			m.es[i], m.ls[i] = es, ls
		}
		if !changed {
			return m.checkOverload()
		}
		if err := m.raiseEarliest(); err != nil {
			return &InfeasibleError{} // calendars took part, so no cycle of lags is named
		}
		m.lowerLatest()
		for i := range m.ls {
			if m.es[i] > m.ls[i] {
				return &InfeasibleError{}
			}
		}
	}
}

// unplaceable names the resource that by itself keeps activity i from fitting
// into its window, or the first it needs if only several together do.
func (m *model) unplaceable(i int) *InfeasibleError {
	u := &Unplaceable{Activity: i, Resource: m.needs[i][0].Resource}
	for _, nd := range m.needs[i] {
		one := demand{amounts: make([]uint64, m.base.words), states: make([]uint64, m.base.stateWords), excluded: make([]uint64, m.base.stateWords)}
		one.amounts[nd.Resource/4] = uint64(nd.Amount) << lane(nd.Resource)
		if t := m.base.earliest(&one, m.es[i], m.dur[i]); t > m.ls[i] {
			u.Resource = nd.Resource
			break
		}
	}
	return &InfeasibleError{Unplaceable: u}
}
