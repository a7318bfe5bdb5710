package rcpsp

import "slices"

// timeTable propagates the capacity of one resource. The compulsory part of an
// activity is the time from its latest start to its earliest end: it runs then
// whatever its start is. Where the compulsory parts of others leave too little,
// an activity cannot run, and its bounds move past that place. Explanations are
// pointwise: they name one moment and the activities that run then.
type timeTable struct {
	m      *model
	users  []int32 // activities that need the resource and are not fixed
	amount []int32 // by user
	most   int32   // the largest amount

	calAt, calFree []int32 // the calendar, less what the fixed activities use
	segAt, segFree []int32 // the calendar less all compulsory parts, by segment
	least          int32   // the least free capacity of all segments
	events         []int64 // starts and ends of compulsory parts; see build
	explanation    []literal
}

// newTimeTable returns the time table of resource k. It has no users if the
// resource always has enough for all of them.
func newTimeTable(m *model, k int) timeTable {
	tt := timeTable{m: m}
	f := &m.base
	for s, at := range f.at {
		free := f.freeAt(s, k)
		if s == 0 || free != tt.calFree[len(tt.calFree)-1] {
			tt.calAt, tt.calFree = append(tt.calAt, at), append(tt.calFree, free)
		}
	}
	var sum int64
	for i := range m.needs {
		for _, nd := range m.needs[i] {
			if nd.Resource == k && nd.Amount > 0 && !m.fixed[i] {
				tt.users = append(tt.users, int32(i))
				tt.amount = append(tt.amount, int32(nd.Amount))
				tt.most = max(tt.most, int32(nd.Amount))
				sum += int64(nd.Amount)
			}
		}
	}
	if sum <= int64(slices.Min(tt.calFree)) {
		tt.users = nil
	}
	return tt
}

// propagate rebuilds the table and moves the bounds of activities that do not fit.
// It returns false at a conflict.
func (tt *timeTable) propagate(t *trail) bool {
	if !tt.build(t) {
		return false
	}
	if tt.least >= tt.most {
		return true
	}
	for u, i := range tt.users {
		if t.earliest(i) == t.latest(i) {
			continue
		}
		if !tt.raiseEarliest(t, i, tt.amount[u]) || !tt.lowerLatest(t, i, tt.amount[u]) {
			return false
		}
	}
	return true
}

// An event of a compulsory part is packed as time << timeShift + bias + change, to
// be sorted without a comparison function. change is from -MaxCapacity to
// MaxCapacity: negative where a part starts.
const (
	timeShift = 20
	bias      = 1 << 17
)

// build computes the segments: the calendar less all compulsory parts. It returns
// false, with the conflict set, if they need more than there is.
func (tt *timeTable) build(t *trail) bool {
	tt.events = tt.events[:0]
	for k, i := range tt.users {
		ls := t.latest(i)
		if end := t.earliest(i) + tt.m.dur[i]; ls < end {
			tt.events = append(tt.events,
				int64(ls)<<timeShift+bias-int64(tt.amount[k]),
				int64(end)<<timeShift+bias+int64(tt.amount[k]))
		}
	}
	slices.Sort(tt.events)
	tt.segAt, tt.segFree = tt.segAt[:0], tt.segFree[:0]
	tt.least = tt.calFree[0]
	var used int32
	for c, e := 0, 0; ; {
		now := infinity // the next change of the calendar or of the compulsory parts
		if c < len(tt.calAt) {
			now = tt.calAt[c]
		}
		if e < len(tt.events) {
			now = min(now, int32(tt.events[e]>>timeShift))
		}
		if now == infinity {
			return true
		}
		if c < len(tt.calAt) && tt.calAt[c] == now {
			c++
		}
		for e < len(tt.events) && int32(tt.events[e]>>timeShift) == now {
			used -= int32(tt.events[e]&(1<<timeShift-1)) - bias
			e++
		}
		free := tt.calFree[c-1] - used
		tt.segAt, tt.segFree = append(tt.segAt, now), append(tt.segFree, free)
		tt.least = min(tt.least, free)
		if used > 0 && free < 0 {
			t.conflict = append(t.conflict[:0], tt.explain(t, now, now+1, -1, tt.calFree[c-1])...)
			return false
		}
	}
}

// explain returns literals that together use more than room throughout from..end,
// without activity except.
func (tt *timeTable) explain(t *trail, from, end, except, room int32) []literal {
	tt.explanation = tt.explanation[:0]
	for k, i := range tt.users {
		if room < 0 {
			break
		}
		if i == except || t.latest(i) > from || t.earliest(i)+tt.m.dur[i] < end {
			continue
		}
		room -= tt.amount[k]
		tt.explanation = append(tt.explanation, startAtMost(i, from), startAtLeast(i, end-tt.m.dur[i]))
	}
	return tt.explanation
}

// stepAt returns the last position in at, which ascends, that is not after t.
func stepAt(at []int32, t int32) int {
	k, found := slices.BinarySearch(at, t)
	if !found {
		k--
	}
	return k
}

// hasRoom reports whether segment k has room for an activity, whose own compulsory
// part, from ls to end, must not count against it.
func (tt *timeTable) hasRoom(k int, amount, ls, end int32) bool {
	free := tt.segFree[k]
	if ls <= tt.segAt[k] && tt.segAt[k] < end {
		free += amount
	}
	return free >= amount
}

// raiseEarliest raises the earliest start of activity i past segments that have no
// room for it. It returns false at a conflict.
func (tt *timeTable) raiseEarliest(t *trail, i, amount int32) bool {
	dur := tt.m.dur[i]
	es, ls := t.earliest(i), t.latest(i) // what the table was built from
	for k := stepAt(tt.segAt, es); k < len(tt.segAt) && tt.segAt[k] < t.earliest(i)+dur; k++ {
		if tt.hasRoom(k, amount, ls, es+dur) {
			continue
		}
		end := infinity
		if k+1 < len(tt.segAt) {
			end = tt.segAt[k+1]
		}
		// A segment that ends before the activity can is explained at its last
		// moment alone, which is the more general explanation.
		from := max(tt.segAt[k], t.earliest(i))
		if end <= t.earliest(i)+dur {
			from = end - 1
		}
		free := tt.calFree[stepAt(tt.calAt, from)]
		why := append(tt.explain(t, from, end, i, free-amount), startAtLeast(i, from+1-dur))
		if !t.setBecause(startAtLeast(i, end), why...) {
			return false
		}
	}
	return true
}

// lowerLatest lowers the latest start of activity i before segments that have no
// room for it. It returns false at a conflict.
func (tt *timeTable) lowerLatest(t *trail, i, amount int32) bool {
	dur := tt.m.dur[i]
	es, ls := t.earliest(i), t.latest(i)
	for k := stepAt(tt.segAt, ls+dur-1); k >= 0; k-- {
		if k+1 < len(tt.segAt) && tt.segAt[k+1] <= t.latest(i) {
			break
		}
		if tt.hasRoom(k, amount, ls, es+dur) {
			continue
		}
		from, end := tt.segAt[k], t.latest(i)+dur
		if k+1 < len(tt.segAt) {
			end = min(end, tt.segAt[k+1])
		}
		if from >= t.latest(i) {
			end = from + 1 // explained at its first moment alone
		}
		free := tt.calFree[stepAt(tt.calAt, from)]
		why := append(tt.explain(t, from, end, i, free-amount), startAtMost(i, end-1))
		if !t.setBecause(startAtMost(i, from-dur), why...) {
			return false
		}
	}
	return true
}
