package rcpsp

// forwardLags is the serial scheme with unscheduling for maximum lags (Franck,
// Neumann, Schwindt, OR Spektrum 23, 2001, from memory): an activity that fits
// only after its latest start pushes what bounds it later, and everything that
// started since is placed anew. It gives never if that does not settle.
func (d *decoder) forwardLags(list []int32) int32 {
	m := d.m
	d.f.copyFrom(&m.busy)
	copy(d.floor, m.lo)
	copy(d.es, m.lo)
	copy(d.ls, m.hi)
	copy(d.placed, m.held)
	for _, i := range list {
		d.start[i] = m.lo[i]
	}
	patience := 3*len(list)/2 + 20
	for k := 0; k < len(list); k++ {
		i := list[k]
		if d.placed[i] {
			continue
		}
		t := d.f.earliest(&m.uses[i], d.es[i], m.dur[i])
		if t > d.ls[i] {
			if patience--; patience < 0 || !d.push(list, i, t) {
				return never
			}
			k = -1 // from the front again: the list skips what is placed
			continue
		}
		d.put(list, i, t)
	}
	return d.end()
}

// put places i at t and narrows the windows of what is not placed yet.
func (d *decoder) put(list []int32, i, t int32) {
	m := d.m
	d.f.take(&m.uses[i], t, m.dur[i])
	d.start[i], d.placed[i] = t, true
	d.narrow(i, t)
}

func (d *decoder) narrow(i, t int32) {
	row := d.m.dist[i]
	for j, e := range row {
		if e != noLag && t+e > d.es[j] {
			d.es[j] = t + e
		}
	}
	for j, e := range d.m.back[i] {
		if e != noLag && t-e < d.ls[j] {
			d.ls[j] = t - e
		}
	}
}

// push makes room for i at t: what holds i's latest start below t is moved on.
func (d *decoder) push(list []int32, i, t int32) bool {
	m := d.m
	if t > m.hi[i] {
		return false
	}
	first := never
	for _, j := range list {
		back := m.dist[i][j]
		if d.placed[j] && back != noLag && d.start[j] < t+back {
			d.floor[j] = max(d.floor[j], t+back)
			if d.floor[j] > m.hi[j] {
				return false
			}
			first = min(first, d.start[j])
		}
	}
	if first == never {
		return false // a window or a held activity bounds it, and they do not move
	}
	d.f.copyFrom(&m.busy)
	copy(d.es, d.floor)
	copy(d.ls, m.hi)
	for _, j := range list {
		if d.placed[j] && d.start[j] >= first {
			d.placed[j] = false
		}
	}
	for _, j := range list {
		if d.placed[j] {
			d.f.take(&m.uses[j], d.start[j], m.dur[j])
			d.narrow(j, d.start[j])
		} else if f := d.floor[j]; f > m.lo[j] {
			for k, e := range m.dist[j] {
				if e != noLag && f+e > d.es[k] {
					d.es[k] = f + e
				}
			}
		}
	}
	return true
}
