package rcpsp

import "slices"

// resources packs the needs and lays the calendars and the held activities into
// the profile. It finds activities that no moment of their window has room for.
func (m *model) resources() *InfeasibleError {
	nr := len(m.p.Resources)
	m.words = (nr + 3) / 4
	m.maxRes = make([]int32, nr)

	type setting struct{ resource, state int }
	settings := map[setting]int{}
	var ofResource [][]int = make([][]int, nr) // the places of a resource's states
	for i := range m.cons {
		for _, nd := range m.cons[i] {
			s := setting{nd.Resource, nd.State}
			if _, ok := settings[s]; !ok && nd.State != 0 {
				settings[s] = len(settings)
				ofResource[nd.Resource] = append(ofResource[nd.Resource], settings[s])
			}
		}
	}
	// A count of a state must not overflow its byte: with very many activities
	// it gets two.
	lane := 8
	if m.n > 255 {
		lane = 16
	}
	m.marks = (len(settings)*lane + 63) / 64

	m.uses = make([]uses, m.n)
	for i := range m.uses {
		u := &m.uses[i]
		u.take = make([]uint64, m.words)
		u.adds, u.others = make([]uint64, m.marks), make([]uint64, m.marks)
		u.none = len(m.cons[i]) == 0
		for _, nd := range m.cons[i] {
			u.take[nd.Resource/4] |= uint64(nd.Amount) << (nd.Resource % 4 * 16)
			if nd.State == 0 {
				continue
			}
			own := settings[setting{nd.Resource, nd.State}]
			u.adds[own*lane/64] += 1 << (own * lane % 64)
			for _, other := range ofResource[nd.Resource] {
				if other != own {
					u.others[other*lane/64] |= (1<<lane - 1) << (other * lane % 64)
				}
			}
		}
	}
	m.calendar()
	return m.lone()
}

// calendar fills the profile. Held activities may take more than there is: what
// has happened has happened, and leaves nothing free.
func (m *model) calendar() {
	moments := []int32{always}
	for k, r := range m.p.Resources {
		m.maxRes[k] = int32(r.Cap)
		for _, c := range r.Changes {
			moments = append(moments, int32(c.At))
			m.maxRes[k] = max(m.maxRes[k], int32(c.Cap))
		}
	}
	for i := range m.held {
		if m.held[i] && !m.uses[i].none {
			moments = append(moments, m.lo[i], m.lo[i]+m.dur[i])
		}
	}
	slices.Sort(moments)
	moments = slices.Compact(moments)
	f := profile{words: m.words, marks: m.marks, at: moments,
		free: make([]uint64, len(moments)*m.words), state: make([]uint64, len(moments)*m.marks)}
	for k, t := range moments {
		for r := range m.p.Resources {
			free := m.p.Resources[r].at(int(t))
			for i := range m.held {
				if m.held[i] && m.lo[i] <= t && t < m.lo[i]+m.dur[i] {
					for _, nd := range m.cons[i] {
						if nd.Resource == r {
							free -= nd.Amount
						}
					}
				}
			}
			f.free[k*m.words+r/4] |= uint64(max(0, free)) << (r % 4 * 16)
		}
		for i := range m.held {
			if m.held[i] && m.lo[i] <= t && t < m.lo[i]+m.dur[i] {
				for w, add := range m.uses[i].adds {
					f.state[k*m.marks+w] += add
				}
			}
		}
	}
	m.busy = f
}

// at is the capacity at time t.
func (r *Resource) at(t int) int {
	capacity := r.Cap
	for _, c := range r.Changes {
		if c.At > t {
			break
		}
		capacity = c.Cap
	}
	return capacity
}

// lone narrows each window to where the activity fits beside the held ones, as
// if it were alone, until lags and calendars agree.
func (m *model) lone() *InfeasibleError {
	for again := true; again; {
		again = false
		for i := range m.held {
			if m.held[i] {
				continue
			}
			lo := m.busy.earliest(&m.uses[i], m.lo[i], m.dur[i])
			hi := m.busy.latest(&m.uses[i], m.hi[i], m.dur[i])
			if lo > m.hi[i] || hi < m.lo[i] {
				return m.blame(i)
			}
			again = again || lo > m.lo[i] || hi < m.hi[i]
			m.lo[i], m.hi[i] = lo, hi
		}
		if !again {
			return m.crowd()
		}
		if why := m.settle(m.lo); why != nil {
			return &InfeasibleError{}
		}
		m.hi = m.latest(m.hi)
		for i := range m.hi {
			if m.lo[i] > m.hi[i] {
				return &InfeasibleError{}
			}
		}
	}
	return nil
}

// blame names the resource that alone keeps activity i from running, or, where
// only several together do, the first it needs.
func (m *model) blame(i int) *InfeasibleError {
	why := &Unplaceable{Activity: i, Resource: m.cons[i][0].Resource}
	for _, nd := range m.cons[i] {
		one := uses{take: make([]uint64, m.words), adds: make([]uint64, m.marks), others: make([]uint64, m.marks)}
		one.take[nd.Resource/4] = uint64(nd.Amount) << (nd.Resource % 4 * 16)
		if t := m.busy.earliest(&one, m.lo[i], m.dur[i]); t > m.hi[i] {
			why.Resource = nd.Resource
			break
		}
	}
	return &InfeasibleError{Unplaceable: why}
}
