package rcpsp

// ruleCount is how many priority rules there are before chance comes in.
const ruleCount = 8

// rule gives the key of the k-th list to try: the rules in turn, as they are the
// first time and blurred by chance from then on. Least first.
func (b *breed) rule(k int) func(int32) float64 {
	m := b.d.m
	if m.weight == nil {
		m.weigh()
	}
	var key func(i int32) float64
	switch k % ruleCount {
	case 0: // latest start
		key = func(i int32) float64 { return float64(m.hi[i]) }
	case 1: // backwards: latest end of those that can start first
		key = func(i int32) float64 { return float64(m.lo[i] + m.dur[i]) }
	case 2: // latest end
		key = func(i int32) float64 { return float64(m.hi[i] + m.dur[i]) }
	case 3: // middle of the window
		key = func(i int32) float64 { return float64(m.lo[i]+m.hi[i]) / 2 }
	case 4: // most work after it
		key = func(i int32) float64 { return -m.weight[i] }
	case 5: // earliest start
		key = func(i int32) float64 { return float64(m.lo[i]) }
	case 6: // latest start, large takers first
		key = func(i int32) float64 { return float64(m.hi[i]) - 0.25*m.share[i]*float64(m.dur[i]) }
	default: // least room
		key = func(i int32) float64 { return float64(m.hi[i]-m.lo[i]) + 0.5*float64(m.lo[i]) }
	}
	if k < ruleCount {
		return key
	}
	spread := float64(m.span) * (0.03 + 0.15*b.rnd.unit())
	if k%ruleCount == 4 {
		spread *= m.perSpan
	}
	blur := make([]float64, m.n)
	for i := range blur {
		blur[i] = key(int32(i)) + spread*(b.rnd.unit()+b.rnd.unit()-1)
	}
	return func(i int32) float64 { return blur[i] }
}

// weigh computes what the rules go by: how much of its scarcest resource an
// activity takes, and how much work waits for its end.
func (m *model) weigh() {
	m.share, m.weight = make([]float64, m.n), make([]float64, m.n)
	for i := range m.cons {
		for _, nd := range m.cons[i] {
			m.share[i] = max(m.share[i], float64(nd.Amount)/float64(max(1, m.maxRes[nd.Resource])))
		}
	}
	list := m.list(func(i int32) float64 { return float64(m.lo[i]) })
	seen := make([]int32, m.n)
	var top float64
	for mark, i := range list {
		var stack = []int32{i}
		for len(stack) > 0 {
			j := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			m.weight[i] += float64(m.dur[j]) * (0.2 + m.share[j])
			for _, k := range m.after[j] {
				if seen[k] != int32(mark+1) {
					seen[k] = int32(mark + 1)
					stack = append(stack, k)
				}
			}
		}
		top = max(top, m.weight[i])
		m.span = max(m.span, m.lo[i]+m.dur[i])
	}
	m.perSpan = top / float64(max(1, m.span))
}
