package rcpsp

import "slices"

// decoder turns lists into schedules. It keeps its memory from one schedule to
// the next and counts them: every pass over all activities is one.
type decoder struct {
	m     *model
	f     profile
	start []int32
	spent int
	limit int // schedules there may be
	sort  []int64

	es, ls []int32 // for maximum lags: windows of what is not yet placed
	floor  []int32
	placed []bool
}

func newDecoder(m *model, limit int) *decoder {
	d := &decoder{m: m, limit: limit, start: make([]int32, m.n), sort: make([]int64, 0, m.n),
		es: make([]int32, m.n), ls: make([]int32, m.n), floor: make([]int32, m.n), placed: make([]bool, m.n)}
	copy(d.start, m.lo) // held starts stay as they are
	return d
}

func (d *decoder) spend() bool {
	if d.over() {
		return false
	}
	d.spent++
	return true
}

func (d *decoder) over() bool { return d.spent >= d.limit }

// forward places each activity of the list as early as what is already placed
// allows (the serial scheme). It gives the end, or never.
func (d *decoder) forward(list []int32) int32 {
	if !d.spend() {
		return never
	}
	m := d.m
	if !m.plain {
		return d.forwardLags(list)
	}
	d.f.copyFrom(&m.busy)
	for _, i := range list {
		t := m.lo[i]
		for _, a := range m.pred[i] {
			t = max(t, d.start[a.to]+a.lag)
		}
		t = d.f.earliest(&m.uses[i], t, m.dur[i])
		if t >= never {
			return never
		}
		d.f.take(&m.uses[i], t, m.dur[i])
		d.start[i] = t
	}
	return d.end()
}

// backward places each activity of the list, last one first, as late as what is
// already placed allows, all ending by end. It may reach before zero: only
// the order it gives is used.
func (d *decoder) backward(list []int32, end int32) bool {
	if !d.spend() {
		return false
	}
	m := d.m
	d.f.copyFrom(&m.busy)
	for _, i := range slices.Backward(list) {
		t := end - m.dur[i]
		for _, a := range m.succ[i] {
			if !m.held[a.to] {
				t = min(t, d.start[a.to]-a.lag)
			}
		}
		t = d.f.latest(&m.uses[i], t, m.dur[i])
		if t <= always {
			return false
		}
		d.f.take(&m.uses[i], t, m.dur[i])
		d.start[i] = t
	}
	return true
}

// end is the end of the last activity.
func (d *decoder) end() int32 {
	end := always
	for i, t := range d.start {
		end = max(end, t+d.m.dur[i])
	}
	return end
}

// inTime says whether all has ended by the problem's own horizon.
func (d *decoder) inTime() bool {
	if d.m.p.Horizon == 0 {
		return true
	}
	for i, t := range d.start {
		if !d.m.held[i] && t+d.m.dur[i] > d.m.horizon {
			return false
		}
	}
	return true
}

// byStart orders list by the starts just found, byEnd by the ends; ties keep an
// order that respects precedence.
func (d *decoder) byStart(list []int32) { d.by(list, func(i int32) int32 { return d.start[i] }) }
func (d *decoder) byEnd(list []int32) {
	d.by(list, func(i int32) int32 { return d.start[i] + d.m.dur[i] })
}

// by sorts with the key in the high half of a word and the place in the list in
// the low half: stable, and without a comparison function.
func (d *decoder) by(list []int32, key func(int32) int32) {
	d.sort = d.sort[:0]
	for k, i := range list {
		d.sort = append(d.sort, int64(key(i))<<32|int64(k))
	}
	slices.Sort(d.sort)
	old := append(d.es[:0], list...) // es is free here
	for k, v := range d.sort {
		list[k] = old[v&0xffffffff]
	}
}
