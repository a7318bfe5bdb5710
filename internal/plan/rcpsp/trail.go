package rcpsp

// The exhaustive search works on bounds of start times. Each activity i has two
// views: view 2i is its start, view 2i+1 is its start negated. A lower bound of the
// start is an upper bound of the negated view, so that every literal has the same
// form: "this view is at most that value".

// A literal states that a view is at most max.
type literal struct{ view, max int32 }

// negated returns the literal that is true when l is false.
func (l literal) negated() literal { return literal{l.view ^ 1, -l.max - 1} }

// startAtLeast returns the literal "activity i starts at t or later".
func startAtLeast(i, t int32) literal { return literal{2*i + 1, -t} }

// startAtMost returns the literal "activity i starts at t or earlier".
func startAtMost(i, t int32) literal { return literal{2 * i, t} }

// activityOf returns the activity that a view belongs to.
func activityOf(view int32) int32 { return view / 2 }

type reasonKind uint8

const (
	decision   reasonKind = iota // assumed by the search
	fromLag                      // by literal{a, max+b}: view a is bounded, b is the time lag
	fromNogood                   // because all other literals of nogood a are false
	fromList                     // by the literals a to b of trail.list
)

// reason is what made a literal true. a and b depend on the kind.
type reason struct {
	kind reasonKind
	a, b int32
}

// event is one tightening of a view, with what is needed to undo and explain it.
type event struct {
	view, max, oldMax int32
	previous          int32 // the event before this one on the same view; -1 if none
	why               reason
}

// mark is the length of the trail's stacks when a decision level began.
type mark struct{ events, list int32 }

// trail is the stack of all tightenings since the root of the search.
type trail struct {
	bound  []int32 // by view: its maximum
	last   []int32 // by view: its last event; -1 if none
	events []event
	list   []literal // explanations written while propagating
	levels []mark    // one for each decision
	next   int       // the first event that is not propagated yet

	conflict []literal // after a failed set: literals that cannot all be true
}

func newTrail(m *model) *trail {
	t := &trail{bound: make([]int32, 2*m.n), last: make([]int32, 2*m.n)}
	for i := range m.es {
		t.bound[2*i], t.bound[2*i+1] = m.ls[i], -m.es[i]
		t.last[2*i], t.last[2*i+1] = -1, -1
	}
	return t
}

func (t *trail) earliest(i int32) int32 { return -t.bound[2*i+1] }
func (t *trail) latest(i int32) int32   { return t.bound[2*i] }

func (t *trail) isTrue(l literal) bool  { return t.bound[l.view] <= l.max }
func (t *trail) isFalse(l literal) bool { return t.bound[l.view^1] <= -l.max-1 }

// set makes l true. If that leaves the activity no start, it returns false and
// puts the opposite bound into conflict; the caller adds the reasons of l.
func (t *trail) set(l literal, why reason) bool {
	old := t.bound[l.view]
	if l.max >= old {
		return true
	}
	if l.max+t.bound[l.view^1] < 0 {
		t.conflict = append(t.conflict[:0], l.negated())
		return false
	}
	t.events = append(t.events, event{l.view, l.max, old, t.last[l.view], why})
	t.last[l.view] = int32(len(t.events) - 1)
	t.bound[l.view] = l.max
	return true
}

// setBecause makes l true for reasons that are written down at once. If it returns
// false, the conflict is complete.
func (t *trail) setBecause(l literal, why ...literal) bool {
	from := int32(len(t.list))
	t.list = append(t.list, why...)
	if t.set(l, reason{fromList, from, int32(len(t.list))}) {
		return true
	}
	t.conflict = append(t.conflict, why...)
	return false
}

// newLevel begins a decision level.
func (t *trail) newLevel() {
	t.levels = append(t.levels, mark{int32(len(t.events)), int32(len(t.list))})
}

// backtrack undoes everything above decision level k; level 0 is the root.
func (t *trail) backtrack(k int) {
	if k >= len(t.levels) {
		return
	}
	to := t.levels[k]
	for e := len(t.events) - 1; e >= int(to.events); e-- {
		ev := &t.events[e]
		t.bound[ev.view], t.last[ev.view] = ev.oldMax, ev.previous
	}
	t.events, t.list, t.levels = t.events[:to.events], t.list[:to.list], t.levels[:k]
	t.next = int(to.events)
}

// eventOf returns the event that made l true, or -1 if l is true at the root.
func (t *trail) eventOf(l literal) int32 {
	e := t.lastEvent(l)
	if len(t.levels) == 0 || e < t.levels[0].events {
		return -1
	}
	return e
}

// lastEvent is eventOf for literals that became true at the root too; -1 if l was
// true from the beginning.
func (t *trail) lastEvent(l literal) int32 {
	e := t.last[l.view]
	for e >= 0 && t.events[e].oldMax <= l.max {
		e = t.events[e].previous
	}
	return e
}
