package rcpsp

// polish shifts the schedule just found to the right and back to the left, as
// long as that shortens it: the search settles each start for a reason, and not
// every reason stands once all is placed.
func (x *exhaust) polish() {
	d := x.d
	list := x.m.list(func(i int32) float64 { return float64(x.m.lo[i]) })
	for again := true; again && d.limit-d.spent >= 2; {
		again = false
		copy(d.start, x.best)
		d.byEnd(list)
		if d.backward(list, x.end) {
			d.byStart(list)
			if end := d.forward(list); end < x.end && d.inTime() {
				x.end, again = end, true
				copy(x.best, d.start)
			}
		}
	}
}
