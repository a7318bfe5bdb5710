package rcpsp

import "math"

const (
	infinity = int32(math.MaxInt32 / 2) // later than any time; also "no feasible start"
	noPath   = -infinity                // length of a path of time lags that does not exist
)

// An arc is a time lag seen from one of its two activities.
type arc struct {
	to  int32 // the other activity
	lag int32
}

// model is a problem prepared for the solver: time windows tightened by the time
// lags, needs packed into machine words, and the fixed activities entered in the
// resource profile, so that every schedule starts from a copy of it. Slices are
// indexed by activity unless their comment says otherwise.
type model struct {
	p       *Problem
	n       int // number of activities
	dur     []int32
	fixed   []bool
	movable int      // number of activities that are not fixed
	needs   [][]Need // without zero amounts, and only of activities that take time
	demand  []demand // the same, packed for the profile
	maxCap  []int32  // by resource: its largest capacity over time

	horizon int32
	es, ls  []int32   // earliest and latest start
	succ    [][]arc   // time lags from each activity; none between two fixed activities
	pred    [][]arc   // time lags to each activity
	dist    [][]int32 // dist[i][j]: length of the longest path of time lags from i to j
	distTo  [][]int32 // distTo[j][i] is dist[i][j]: the matrix transposed

	// minLagsOnly is true without maximum time lags and deadlines. Then no later
	// decision can make an earlier one wrong, a faster scheme is used, and dist
	// stays nil until something needs it.
	minLagsOnly bool
	follows     [][]int32 // activities that have to come later in an activity list
	disjunctive [][]int32 // activities that can never run at the same time as this one

	base profile // calendars less what the fixed activities use
}

// compile prepares p, which must be valid. It returns an error if it finds a
// proof that p has no schedule.
func compile(p *Problem) (*model, *InfeasibleError) {
	n := len(p.Activities)
	m := &model{p: p, n: n, dur: make([]int32, n), fixed: make([]bool, n), needs: make([][]Need, n)}
	for i, a := range p.Activities {
		m.dur[i], m.fixed[i] = int32(a.Dur), a.Fixed
		if !a.Fixed {
			m.movable++
		}
		for _, nd := range a.Needs {
			if a.Dur > 0 && (nd.Amount > 0 || nd.State != 0) {
				m.needs[i] = append(m.needs[i], nd)
			}
		}
	}
	m.buildArcs()
	m.horizon = int32(p.horizon())
	if err := m.timeWindows(); err != nil {
		return nil, err
	}
	if err := m.buildResources(); err != nil {
		return nil, err
	}
	if err := m.buildPrecedence(); err != nil {
		return nil, err
	}
	return m, nil
}

// buildArcs stores the time lags by activity. Of several lags from one activity to
// another only the longest counts.
func (m *model) buildArcs() {
	m.succ, m.pred = make([][]arc, m.n), make([][]arc, m.n)
	seen := map[[2]int]int{} // position in succ, by pair of activities
	for _, l := range m.p.Lags {
		if m.fixed[l.From] && m.fixed[l.To] || l.From == l.To && l.Min <= 0 {
			continue
		}
		key := [2]int{l.From, l.To}
		if k, ok := seen[key]; ok {
			m.succ[l.From][k].lag = max(m.succ[l.From][k].lag, int32(l.Min))
			continue
		}
		seen[key] = len(m.succ[l.From])
		m.succ[l.From] = append(m.succ[l.From], arc{int32(l.To), int32(l.Min)})
	}
	for i := range m.succ {
		for _, a := range m.succ[i] {
			m.pred[a.to] = append(m.pred[a.to], arc{int32(i), a.lag})
		}
	}
}
