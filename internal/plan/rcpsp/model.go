package rcpsp

import "math"

const (
	never  = int32(math.MaxInt32 / 2) // later than any time
	always = -never                   // before any time
	noLag  = always                   // no path of lags
)

// An arc is one end of a lag.
type arc struct {
	to  int32
	lag int32
}

// model is a problem made ready for the solver: windows narrowed by the lags,
// needs packed into machine words, held activities written into the profile
// once so that every schedule starts from a copy of it.
type model struct {
	p       *Problem
	n       int
	dur     []int32
	held    []bool
	uses    []uses  // what each activity takes, packed
	succ    [][]arc // lags out of each activity, none from a held one to a held one
	pred    [][]arc
	lo, hi  []int32 // starts allowed by lags and windows alone
	horizon int32
	dist    [][]int32 // longest paths of lags; nil unless there are maximum lags
	back    [][]int32 // the same, turned: back[i][j] is dist[j][i]
	plain   bool      // no start is bounded from above but by the horizon
	busy    profile   // calendars less what the held activities take
	after   [][]int32 // which activities must come later in a list
	free    int       // activities not held
	words   int       // words of availability per moment
	marks   int       // words of states per moment
	pairs   [][]int32 // for each activity, those it cannot run beside
	maxRes  []int32   // highest capacity each resource ever has
	cons    [][]Need  // needs without empty ones, of activities that take time

	share, weight []float64 // what the priority rules go by: see weigh
	span          int32
	perSpan       float64
}

// compile readies p, which must be valid. A non-nil *InfeasibleError says that no
// schedule exists.
func compile(p *Problem) (*model, *InfeasibleError) {
	n := len(p.Activities)
	m := &model{p: p, n: n, dur: make([]int32, n), held: make([]bool, n),
		succ: make([][]arc, n), pred: make([][]arc, n), cons: make([][]Need, n)}
	for i, a := range p.Activities {
		m.dur[i], m.held[i] = int32(a.Dur), a.Fixed
		for _, nd := range a.Needs {
			if a.Dur > 0 && (nd.Amount > 0 || nd.State != 0) {
				m.cons[i] = append(m.cons[i], nd)
			}
		}
	}
	seen := map[[2]int]int{} // of two lags between the same two, the longer counts
	for _, l := range p.Lags {
		if m.held[l.From] && m.held[l.To] || l.From == l.To && l.Min <= 0 {
			continue
		}
		key := [2]int{l.From, l.To}
		if k, ok := seen[key]; ok {
			if m.succ[l.From][k].lag < int32(l.Min) {
				m.succ[l.From][k].lag = int32(l.Min)
			}
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
	m.horizon = int32(p.horizon())
	if why := m.windows(); why != nil {
		return nil, why
	}
	if why := m.resources(); why != nil {
		return nil, why
	}
	if why := m.order(); why != nil {
		return nil, why
	}
	return m, nil
}

// horizon is the problem's own, or the time by which some best schedule has
// ended: one activity after the other, each with its longest wait, begun when
// the last calendar change and the last release are past.
func (p *Problem) horizon() int {
	if p.Horizon > 0 {
		return p.Horizon
	}
	h := 0
	wait := make([]int, len(p.Activities))
	for _, r := range p.Resources {
		if len(r.Changes) > 0 {
			h = max(h, r.Changes[len(r.Changes)-1].At)
		}
	}
	for i, a := range p.Activities {
		wait[i] = a.Dur
		h = max(h, a.Release)
		if a.Fixed {
			h = max(h, a.Start+a.Dur)
		}
	}
	for _, l := range p.Lags {
		wait[l.From] = max(wait[l.From], l.Min)
	}
	for _, w := range wait {
		h += w
	}
	return min(h, MaxTime)
}
