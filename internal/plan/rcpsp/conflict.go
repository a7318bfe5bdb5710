package rcpsp

import (
	"slices"
	"sort"
)

// analysis turns a conflict into a nogood. From the conflicting literals it goes
// back through their reasons, until only one literal of the last decision level is
// left: the first unique implication point of conflict-driven clause learning.
// Bounds are explained when they are needed (lazy clause generation, after
// Schutt, Feydy, Stuckey and Wallace).
//
// The cut is the set of literals under examination. For each view it has at most
// one literal, the tightest that was asked for.
type analysis struct {
	scores scores
	max    []int32 // by view: the literal in the cut is literal{view, max[view]}
	inCut  []bool  // by view
	views  []int32 // all views that are or were in the cut
	listed []bool  // by view: it is in views
	buffer []literal

	levelStart int32 // the first event of the last decision level
	open       int   // literals in the cut from the last decision level
}

func newAnalysis(m *model) *analysis {
	return &analysis{scores: newScores(m.n), max: make([]int32, 2*m.n), inCut: make([]bool, 2*m.n), listed: make([]bool, 2*m.n)}
}

// learn explains the trail's conflict and adds a nogood. It returns the decision
// level to go back to and the nogood's number. Level -1 means that the conflict
// depends on no decision: there is no better schedule.
func (a *analysis) learn(t *trail, ns *nogoods) (level int, added int32) {
	a.levelStart, a.open = t.levels[len(t.levels)-1].events, 0
	for _, l := range t.conflict {
		a.addToCut(t, l)
	}
	if !a.findConflictLevel(t) {
		a.clear()
		return -1, 0
	}
	for e := int32(len(t.events) - 1); ; e-- {
		ev := &t.events[e]
		if !a.inCut[ev.view] || ev.max > a.max[ev.view] || ev.oldMax <= a.max[ev.view] {
			continue // not the event that made a literal of the cut true
		}
		l := literal{ev.view, a.max[ev.view]}
		if a.open == 1 {
			return a.record(t, ns, l)
		}
		a.open--
		a.inCut[ev.view] = false
		for _, r := range a.reasons(t, ns, e, l) {
			a.addToCut(t, r)
		}
	}
}

// addToCut adds a literal, unless it is true at the root or implied by the cut.
func (a *analysis) addToCut(t *trail, l literal) {
	e := t.eventOf(l)
	if e < 0 {
		return
	}
	if !a.inCut[l.view] {
		a.inCut[l.view], a.max[l.view] = true, l.max
		if !a.listed[l.view] {
			a.listed[l.view] = true
			a.views = append(a.views, l.view)
		}
		if e >= a.levelStart {
			a.open++
		}
		a.scores.bump(l.view)
	} else if l.max < a.max[l.view] {
		if e >= a.levelStart && t.eventOf(literal{l.view, a.max[l.view]}) < a.levelStart {
			a.open++
		}
		a.max[l.view] = l.max
	}
}

// findConflictLevel backtracks to the level in which the conflict arose: a nogood
// may have been violated already when the last level began. It returns false if
// that is the root.
func (a *analysis) findConflictLevel(t *trail) bool {
	for a.open == 0 {
		t.backtrack(len(t.levels) - 1)
		if len(t.levels) == 0 {
			return false
		}
		a.levelStart = t.levels[len(t.levels)-1].events
		for _, view := range a.views {
			if t.eventOf(literal{view, a.max[view]}) >= a.levelStart {
				a.open++
			}
		}
	}
	return true
}

// reasons returns the literals that made l true at event e.
func (a *analysis) reasons(t *trail, ns *nogoods, e int32, l literal) []literal {
	switch why := t.events[e].why; why.kind {
	case fromLag:
		a.buffer = append(a.buffer[:0], literal{why.a, l.max + why.b})
	case fromNogood:
		a.buffer = a.buffer[:0]
		for _, other := range ns.all[why.a] {
			if other.view != l.view || other.max > l.max {
				a.buffer = append(a.buffer, other.negated())
			}
		}
	case fromList:
		return t.list[why.a:why.b]
	}
	return a.buffer
}

// record makes a nogood of the cut, without the literals that the rest implies.
// uip is the unique implication point.
func (a *analysis) record(t *trail, ns *nogoods, uip literal) (level int, added int32) {
	n := nogood{uip.negated()}
	latest := int32(-1) // the latest event of the other literals
	for _, view := range a.views {
		if !a.inCut[view] || view == uip.view {
			continue
		}
		l := literal{view, a.max[view]}
		e := t.eventOf(l)
		if a.implied(t, ns, e, l) {
			continue
		}
		n = append(n, l.negated())
		if e > latest {
			latest = e
			n[1], n[len(n)-1] = n[len(n)-1], n[1]
		}
	}
	a.clear()
	a.scores.decay()
	for k := len(t.levels) - 1; k >= 0; k-- {
		if t.levels[k].events <= latest {
			level = k + 1
			break
		}
	}
	return level, ns.add(n)
}

// implied reports whether all reasons of l, which event e made true, are in the
// cut themselves. Each has to be older than l, so that no two
// literals can imply each other.
func (a *analysis) implied(t *trail, ns *nogoods, e int32, l literal) bool {
	if t.events[e].why.kind == decision {
		return false
	}
	for _, r := range a.reasons(t, ns, e, l) {
		if t.eventOf(r) < 0 {
			continue
		}
		if !a.inCut[r.view] || a.max[r.view] > r.max || t.eventOf(literal{r.view, a.max[r.view]}) >= e {
			return false
		}
	}
	return true
}

// clear empties the cut.
func (a *analysis) clear() {
	for _, view := range a.views {
		a.inCut[view], a.listed[view] = false, false
	}
	a.views = a.views[:0]
}

// bumpRootConflict bumps all activities that a conflict at the root goes back to,
// reason by reason: without a decision, that is the whole proof.
func (a *analysis) bumpRootConflict(t *trail, ns *nogoods) {
	todo := slices.Clone(t.conflict)
	seen := map[int32]bool{} // events
	for len(todo) > 0 {
		l := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		a.scores.bump(l.view)
		e := t.lastEvent(l)
		if e >= 0 && !seen[e] && t.events[e].why.kind != decision {
			seen[e] = true
			todo = append(todo, a.reasons(t, ns, e, l)...)
		}
	}
}

// scores holds the variable activity of each activity: how often it took part in
// conflicts, with recent conflicts counting more (VSIDS). Instead of lowering all
// scores after a conflict, the increment grows.
type scores struct {
	of        []float64 // by activity
	increment float64
}

// growth is the factor by which a conflict counts more than the one before it, and
// rescaleAt is the increment at which all scores are scaled down.
const (
	growth    = 1.05
	rescaleAt = 1e100
)

func newScores(n int) scores { return scores{of: make([]float64, n), increment: 1} }

// bump raises the score of the activity of a view.
func (s *scores) bump(view int32) { s.of[activityOf(view)] += s.increment }

// decay makes later conflicts count more.
func (s *scores) decay() {
	s.increment *= growth
	if s.increment > rescaleAt {
		for i := range s.of {
			s.of[i] *= 1 / rescaleAt
		}
		s.increment *= 1 / rescaleAt
	}
}

// highest returns up to a number of activities, the highest scores first, without
// those that took part in no conflict.
func (s *scores) highest(most int) []int {
	var out []int
	for i, score := range s.of {
		if score > 0 {
			out = append(out, i)
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return s.of[out[a]] > s.of[out[b]] })
	return out[:min(most, len(out))]
}
