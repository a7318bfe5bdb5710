package rcpsp

import "slices"

// A table is the timetable of one resource: what is certainly in use at each
// moment because an activity must be running whenever it starts. Who does not
// fit beside that is moved; the explanation names one moment and those who run
// then (pointwise, as in Schutt and others, Constraints 16, 2011, from memory).
type table struct {
	m     *model
	users []int32
	take  []int32 // by user
	most  int32   // the largest take

	at, free []int32 // the calendar, held activities taken off
	events   []int64
	segAt    []int32 // the calendar less what is certain
	segFree  []int32
	least    int32 // least free over the certain parts
	facts    []fact
}

func newTable(m *model, k int) table {
	tb := table{m: m}
	f := &m.busy
	for s, at := range f.at {
		free := int32(f.free[s*f.words+k/4] >> (k % 4 * 16) & MaxCapacity)
		if s == 0 || free != tb.free[len(tb.free)-1] {
			tb.at, tb.free = append(tb.at, at), append(tb.free, free)
		}
	}
	var sum int64
	for i := range m.cons {
		for _, nd := range m.cons[i] {
			if nd.Resource == k && nd.Amount > 0 && !m.held[i] {
				tb.users = append(tb.users, int32(i))
				tb.take = append(tb.take, int32(nd.Amount))
				tb.most = max(tb.most, int32(nd.Amount))
				sum += int64(nd.Amount)
			}
		}
	}
	if sum <= int64(slices.Min(tb.free)) {
		tb.users = nil // never scarce
	}
	return tb
}

// propagate rebuilds the table and moves who does not fit.
func (tb *table) propagate(t *trail) bool {
	if !tb.build(t) {
		return false
	}
	if tb.least >= tb.most {
		return true
	}
	for u, i := range tb.users {
		if t.lo(i) == t.hi(i) {
			continue
		}
		if !tb.later(t, i, tb.take[u]) || !tb.sooner(t, i, tb.take[u]) {
			return false
		}
	}
	return true
}

// build lays the certain parts over the calendar.
func (tb *table) build(t *trail) bool {
	tb.events = tb.events[:0]
	for k, i := range tb.users {
		lo, hi := t.lo(i), t.hi(i)
		if end := lo + tb.m.dur[i]; hi < end {
			tb.events = append(tb.events, int64(hi)<<20+1<<17-int64(tb.take[k]), int64(end)<<20+1<<17+int64(tb.take[k]))
		}
	}
	slices.Sort(tb.events)
	tb.segAt, tb.segFree = tb.segAt[:0], tb.segFree[:0]
	tb.least = tb.free[0]
	var certain int32
	e := 0
	for c := 0; ; {
		// the next moment: a change of the calendar or of the certain parts
		now := never
		if c < len(tb.at) {
			now = tb.at[c]
		}
		if e < len(tb.events) {
			now = min(now, int32(tb.events[e]>>20))
		}
		if now == never {
			break
		}
		if c < len(tb.at) && tb.at[c] == now {
			c++
		}
		for e < len(tb.events) && int32(tb.events[e]>>20) == now {
			certain -= int32(tb.events[e]&(1<<20-1)) - 1<<17
			e++
		}
		free := tb.free[c-1] - certain
		tb.segAt, tb.segFree = append(tb.segAt, now), append(tb.segFree, free)
		tb.least = min(tb.least, free)
		if certain > 0 && free < 0 {
			t.clash = append(t.clash[:0], tb.certainOver(t, now, now+1, -1, tb.free[c-1])...)
			return false
		}
	}
	return true
}

// certainOver collects facts that put more than room in use all through from..end,
// leaving out activity but.
func (tb *table) certainOver(t *trail, from, end, but, room int32) []fact {
	tb.facts = tb.facts[:0]
	for k, i := range tb.users {
		if room < 0 {
			break
		}
		if i == but || t.hi(i) > from || t.lo(i)+tb.m.dur[i] < end {
			continue
		}
		room -= tb.take[k]
		tb.facts = append(tb.facts, atMost(i, from), atLeast(i, end-tb.m.dur[i]))
	}
	return tb.facts
}

// seg is the segment that holds a moment.
func (tb *table) seg(moment int32) int {
	k, found := slices.BinarySearch(tb.segAt, moment)
	if !found {
		k--
	}
	return k
}

// own is what i itself certainly takes in a segment that starts at a moment.
func (tb *table) own(lo, hi, dur, take, moment int32) int32 {
	if hi <= moment && moment < lo+dur {
		return take
	}
	return 0
}

// calendarAt is what the calendar has at a moment.
func (tb *table) calendarAt(moment int32) int32 {
	k, found := slices.BinarySearch(tb.at, moment)
	if !found {
		k--
	}
	return tb.free[k]
}

// later raises i's lower bound past moments at which it can't run.
func (tb *table) later(t *trail, i, take int32) bool {
	dur := tb.m.dur[i]
	lo0, hi0 := t.lo(i), t.hi(i) // what the table was built from
	for k := tb.seg(lo0); k < len(tb.segAt) && tb.segAt[k] < t.lo(i)+dur; k++ {
		if tb.segFree[k]+tb.own(lo0, hi0, dur, take, tb.segAt[k]) >= take {
			continue
		}
		end := never
		if k+1 < len(tb.segAt) {
			end = tb.segAt[k+1]
		}
		// Within one activity's length one moment is reason enough, and the more
		// general one; beyond it the whole segment is.
		from := max(tb.segAt[k], t.lo(i))
		if end <= t.lo(i)+dur {
			from = end - 1
		}
		why := append(tb.certainOver(t, from, end, i, tb.calendarAt(from)-take), atLeast(i, from+1-dur))
		if !t.explained(atLeast(i, end), why...) {
			return false
		}
	}
	return true
}

// sooner lowers i's upper bound before moments at which it can't run.
func (tb *table) sooner(t *trail, i, take int32) bool {
	dur := tb.m.dur[i]
	lo0, hi0 := t.lo(i), t.hi(i)
	for k := tb.seg(hi0 + dur - 1); k >= 0; k-- {
		if k+1 < len(tb.segAt) && tb.segAt[k+1] <= t.hi(i) {
			break
		}
		if tb.segFree[k]+tb.own(lo0, hi0, dur, take, tb.segAt[k]) >= take {
			continue
		}
		from, end := tb.segAt[k], t.hi(i)+dur
		if k+1 < len(tb.segAt) {
			end = min(end, tb.segAt[k+1])
		}
		if from >= t.hi(i) {
			end = from + 1
		}
		why := append(tb.certainOver(t, from, end, i, tb.calendarAt(from)-take), atMost(i, end-1))
		if !t.explained(atMost(i, from-dur), why...) {
			return false
		}
	}
	return true
}
