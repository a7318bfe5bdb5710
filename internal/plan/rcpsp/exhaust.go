package rcpsp

// exhaust searches all schedules that end before the best one known: it places
// the next activity, lets lags, pairs and resources narrow the rest, and learns
// from each dead end what led there. Left alone it ends with a proof.
type exhaust struct {
	m      *model
	t      *trail
	l      *learner
	tables []table
	users  [][]int32 // for each resource, by table
	dirty  []bool
	queue  []int32
	ofUser [][]int32 // tables an activity is in
	hint   []int32   // starts to try first; nil if none is known
	d      *decoder  // for the passes after a schedule is found
	began  int
	placed int  // decisions
	stuck  bool // propagation was given up: no proof can follow
	proven bool // nothing better than best exists
	best   []int32
	end    int32 // of best
}

// newExhaust readies a search for schedules that end before end; never if any
// will do.
func newExhaust(d *decoder, end int32) *exhaust {
	m := d.m
	t := newTrail(m)
	x := &exhaust{m: m, d: d, began: d.spent, t: t, l: newLearner(m, t), end: end, ofUser: make([][]int32, m.n)}
	for k := range m.p.Resources {
		if tb := newTable(m, k); len(tb.users) > 0 {
			for _, i := range tb.users {
				x.ofUser[i] = append(x.ofUser[i], int32(len(x.tables)))
			}
			x.tables = append(x.tables, tb)
		}
	}
	x.dirty = make([]bool, len(x.tables))
	x.proven = !x.root(end)
	return x
}

// root asks for an end before end, and propagates.
func (x *exhaust) root(end int32) bool {
	x.t.up(0)
	for i := range int32(x.m.n) {
		if x.m.held[i] {
			if x.m.lo[i]+x.m.dur[i] >= end {
				return false
			}
		} else if !x.t.set(atMost(i, end-1-x.m.dur[i]), reason{}) {
			return false
		}
	}
	x.t.next = 0 // look at everything once more: it is cheap, and the first time it is new
	for k := range x.tables {
		x.touch(int32(k))
	}
	return x.allArcs() && x.propagate()
}

func (x *exhaust) touch(table int32) {
	if !x.dirty[table] {
		x.dirty[table] = true
		x.queue = append(x.queue, table)
	}
}

// propagate narrows until nothing moves; false at a dead end, with the clash set.
func (x *exhaust) propagate() bool {
	patience := 1000 + 100*x.m.n
	for {
		for x.t.next < len(x.t.steps) {
			if patience--; patience < 0 {
				x.stuck = true // creeping up to a far horizon: not worth the walk
				x.t.next = len(x.t.steps)
				x.stop()
				return true
			}
			st := x.t.steps[x.t.next]
			x.t.next++
			if !x.l.falsified(st) || !x.lags(st.side, st.v) || !x.apart(st.side/2) {
				return x.stop()
			}
			for _, k := range x.ofUser[st.side/2] {
				x.touch(k)
			}
		}
		if len(x.queue) == 0 {
			return true
		}
		k := x.queue[0]
		x.queue = x.queue[:copy(x.queue, x.queue[1:])]
		x.dirty[k] = false
		if !x.tables[k].propagate(x.t) {
			return x.stop()
		}
	}
}

func (x *exhaust) stop() bool {
	if len(x.t.levels) == 0 && !x.stuck {
		x.l.blame()
	}
	for _, k := range x.queue {
		x.dirty[k] = false
	}
	x.queue = x.queue[:0]
	return false
}

// lags passes a new bound along the lags out of an activity (its lower bound) or
// into it (its upper bound).
func (x *exhaust) lags(side, v int32) bool {
	i := side / 2
	if side&1 == 1 {
		for _, a := range x.m.succ[i] {
			if !x.lag(fact{2*a.to + 1, v - a.lag}, side, a.lag) {
				return false
			}
		}
		return true
	}
	for _, a := range x.m.pred[i] {
		if !x.lag(fact{2 * a.to, v - a.lag}, side, a.lag) {
			return false
		}
	}
	return true
}

func (x *exhaust) lag(f fact, from, lag int32) bool {
	if x.t.set(f, reason{kind: byLag, a: from, b: lag}) {
		return true
	}
	x.t.clash = append(x.t.clash, fact{from, f.v + lag})
	return false
}

// allArcs and pairs once at the root, where steps alone would not show what the
// windows began with.
func (x *exhaust) allArcs() bool {
	for i := range int32(x.m.n) {
		if !x.lags(2*i, x.t.bound[2*i]) || !x.lags(2*i+1, x.t.bound[2*i+1]) || !x.apart(i) {
			return x.stop()
		}
	}
	return true
}

// apart keeps i and those it cannot run beside in one order or the other.
func (x *exhaust) apart(i int32) bool {
	for _, j := range x.m.pairs[i] {
		if !x.ordered(i, j) || !x.ordered(j, i) {
			return false
		}
	}
	return true
}

// ordered: if i can't come before j, it comes after it.
func (x *exhaust) ordered(i, j int32) bool {
	t, m := x.t, x.m
	if t.lo(i)+m.dur[i] <= t.hi(j) {
		return true
	}
	// i not before j: lo(i) + dur(i) > hi(j). The slack may go to either fact.
	slack := t.lo(i) + m.dur[i] - t.hi(j) - 1
	why := [2]fact{atLeast(i, t.lo(i)-slack), atMost(j, t.hi(j))}
	if v := t.lo(j) + m.dur[j]; v > t.lo(i) {
		if !t.explained(atLeast(i, v), why[0], why[1], atLeast(j, v-m.dur[j])) {
			return false
		}
	}
	if v := t.hi(i) - m.dur[j]; v < t.hi(j) {
		if !t.explained(atMost(j, v), why[0], why[1], atMost(i, v+m.dur[j])) {
			return false
		}
	}
	return true
}

// explained sets f for reasons that are written down at once.
func (t *trail) explained(f fact, why ...fact) bool {
	from := int32(len(t.list))
	t.list = append(t.list, why...)
	if t.set(f, reason{byList, from, int32(len(t.list))}) {
		return true
	}
	t.clash = append(t.clash, why...)
	return false
}
