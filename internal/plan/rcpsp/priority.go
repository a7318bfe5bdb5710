package rcpsp

// ruleCount is the number of priority rules.
const ruleCount = 8

// priorities computes the keys of the priority rules for the activity lists that
// the genetic algorithm starts from.
type priorities struct {
	m   *model
	rnd *Random
	// share is the largest part of a resource's capacity that the activity needs,
	// 0 to 1. rank is its rank positional weight: the work of the activity and of
	// all that follow it, weighted by share.
	share, rank []float64
	span        int32   // earliest end of all activities
	rankPerSpan float64 // scales random changes of a rank like those of a time
}

func newPriorities(m *model, rnd *Random) *priorities {
	p := &priorities{m: m, rnd: rnd, share: make([]float64, m.n), rank: make([]float64, m.n)}
	for i := range m.needs {
		for _, nd := range m.needs[i] {
			p.share[i] = max(p.share[i], float64(nd.Amount)/float64(max(1, m.maxCap[nd.Resource])))
		}
	}
	var largest float64
	visited := make([]int32, m.n) // in which pass an activity was visited last
	for k, i := range m.newActivityList(func(i int32) float64 { return float64(m.es[i]) }) {
		stack := []int32{i}
		for len(stack) > 0 {
			j := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			p.rank[i] += float64(m.dur[j]) * (0.2 + p.share[j])
			for _, next := range m.follows[j] {
				if visited[next] != int32(k+1) {
					visited[next] = int32(k + 1)
					stack = append(stack, next)
				}
			}
		}
		largest = max(largest, p.rank[i])
		p.span = max(p.span, m.es[i]+m.dur[i])
	}
	p.rankPerSpan = largest / float64(max(1, p.span))
	return p
}

// rule returns the key function of the k-th activity list to try; the least key
// comes first. The first ruleCount lists follow the rules exactly. After that the
// rules come in turn with random changes (biased random sampling).
func (p *priorities) rule(k int) func(int32) float64 {
	m := p.m
	var key func(i int32) float64
	switch k % ruleCount {
	case 0: // latest start time
		key = func(i int32) float64 { return float64(m.ls[i]) }
	case 1: // earliest finish time
		key = func(i int32) float64 { return float64(m.es[i] + m.dur[i]) }
	case 2: // latest finish time
		key = func(i int32) float64 { return float64(m.ls[i] + m.dur[i]) }
	case 3: // middle of the time window
		key = func(i int32) float64 { return float64(m.es[i]+m.ls[i]) / 2 }
	case 4: // greatest rank positional weight
		key = func(i int32) float64 { return -p.rank[i] }
	case 5: // earliest start time
		key = func(i int32) float64 { return float64(m.es[i]) }
	case 6: // latest start time, with a preference for large needs
		key = func(i int32) float64 { return float64(m.ls[i]) - 0.25*p.share[i]*float64(m.dur[i]) }
	default: // minimum slack
		key = func(i int32) float64 { return float64(m.ls[i]-m.es[i]) + 0.5*float64(m.es[i]) }
	}
	if k < ruleCount {
		return key
	}
	spread := float64(p.span) * (0.03 + 0.15*p.rnd.Unit())
	if k%ruleCount == 4 {
		spread *= p.rankPerSpan
	}
	keys := make([]float64, m.n)
	for i := range keys {
		keys[i] = key(int32(i)) + spread*(p.rnd.Unit()+p.rnd.Unit()-1)
	}
	return func(i int32) float64 { return keys[i] }
}
