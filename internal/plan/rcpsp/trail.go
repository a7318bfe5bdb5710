package rcpsp

// The exhaustive search works on bounds. Side 2i is the upper bound of start i,
// side 2i+1 the upper bound of its negation, so that every fact the search deals
// in has one form: "this side is at most so much".

// A fact says that a side is at most v.
type fact struct{ side, v int32 }

// not is what holds if f does not.
func (f fact) not() fact { return fact{f.side ^ 1, -f.v - 1} }

func atLeast(i, t int32) fact { return fact{2*i + 1, -t} }
func atMost(i, t int32) fact  { return fact{2 * i, t} }

type reasonKind uint8

const (
	chosen   reasonKind = iota
	byLag               // from fact{a, v+b}
	byNogood            // the other facts of nogood a
	byList              // facts a to b of the list store
)

type reason struct {
	kind reasonKind
	a, b int32
}

// A step is one tightening of one side, with all that is needed to take it back
// and to say why it was made.
type step struct {
	side, v, old int32
	before       int32 // the step on the same side before this one; -1 if none
	why          reason
}

type levelMark struct{ steps, list int32 }

// trail is the stack of tightenings.
type trail struct {
	bound  []int32 // by side
	last   []int32 // the last step on each side; -1 if none
	steps  []step
	list   []fact // explanations made while propagating
	levels []levelMark
	next   int // the first step not yet propagated

	clash []fact // after a failed set: facts that cannot hold together
}

func newTrail(m *model) *trail {
	t := &trail{bound: make([]int32, 2*m.n), last: make([]int32, 2*m.n)}
	for i := range m.lo {
		t.bound[2*i], t.bound[2*i+1] = m.hi[i], -m.lo[i]
		t.last[2*i], t.last[2*i+1] = -1, -1
	}
	return t
}

func (t *trail) lo(i int32) int32 { return -t.bound[2*i+1] }
func (t *trail) hi(i int32) int32 { return t.bound[2*i] }

// set tightens a side. If that leaves the activity nowhere to start, it gives
// false and fills clash.
func (t *trail) set(f fact, why reason) bool {
	old := t.bound[f.side]
	if f.v >= old {
		return true
	}
	if f.v+t.bound[f.side^1] < 0 {
		t.clash = append(t.clash[:0], f.not())
		return false
	}
	t.steps = append(t.steps, step{f.side, f.v, old, t.last[f.side], why})
	t.last[f.side] = int32(len(t.steps) - 1)
	t.bound[f.side] = f.v
	return true
}

func (t *trail) down() {
	t.levels = append(t.levels, levelMark{int32(len(t.steps)), int32(len(t.list))})
}

// up goes back to level k, 0 being the root.
func (t *trail) up(k int) {
	if k >= len(t.levels) {
		return
	}
	mark := t.levels[k]
	for s := len(t.steps) - 1; s >= int(mark.steps); s-- {
		st := &t.steps[s]
		t.bound[st.side], t.last[st.side] = st.old, st.before
	}
	t.steps, t.list, t.levels = t.steps[:mark.steps], t.list[:mark.list], t.levels[:k]
	t.next = int(mark.steps)
}

// madeTrue is the step that made f true, or -1 if it holds at the root.
func (t *trail) madeTrue(f fact) int32 {
	s := t.last[f.side]
	for s >= 0 && t.steps[s].old <= f.v {
		s = t.steps[s].before
	}
	if len(t.levels) == 0 || s < t.levels[0].steps {
		return -1
	}
	return s
}
