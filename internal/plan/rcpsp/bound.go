package rcpsp

// bound is a time before which no schedule can end: the longest chain of lags,
// and for each resource the work that must be done divided by what there is.
func (m *model) bound() int32 {
	end := always
	for i := range m.lo {
		end = max(end, m.lo[i]+m.dur[i])
	}
	if m.n == 0 {
		return 0
	}
	for k := range m.p.Resources {
		end = max(end, m.load(k))
	}
	return end
}

// load is the earliest time by which the calendar of resource k has provided
// the work of every activity that is not held.
func (m *model) load(k int) int32 {
	var work int64
	first := never
	for i := range m.cons {
		for _, nd := range m.cons[i] {
			if nd.Resource == k && !m.held[i] && nd.Amount > 0 {
				work += int64(nd.Amount) * int64(m.dur[i])
				first = min(first, m.lo[i])
			}
		}
	}
	if work == 0 {
		return always
	}
	f := &m.busy
	for s := f.find(first); ; s++ {
		free := int64(f.free[s*f.words+k/4] >> (k % 4 * 16) & MaxCapacity)
		from := max(first, f.at[s])
		if s+1 == len(f.at) {
			if free == 0 {
				return never
			}
			return from + int32((work+free-1)/free)
		}
		span := int64(f.at[s+1] - from)
		if free > 0 && free*span >= work {
			return from + int32((work+free-1)/free)
		}
		work -= free * span
	}
}
