package rcpsp

// reserve takes d from the profile for dur units of time from t on. It must fit.
func (f *profile) reserve(d *demand, t, dur int32) {
	if d.none {
		return
	}
	a, b := f.splitAround(t, dur)
	for k := a * f.words; k < b*f.words; {
		for _, amount := range d.amounts {
			f.free[k] -= amount
			k++
		}
	}
	if f.stateWords > 0 {
		for k := a * f.stateWords; k < b*f.stateWords; {
			for _, count := range d.states {
				f.state[k] += count
				k++
			}
		}
	}
}

// release undoes reserve. It removes breakpoints that no longer separate two
// different steps.
func (f *profile) release(d *demand, t, dur int32) {
	if d.none {
		return
	}
	a, b := f.splitAround(t, dur) // another release may have merged steps here
	for k := a; k < b; k++ {
		for w, amount := range d.amounts {
			f.free[k*f.words+w] += amount
		}
		if f.stateWords > 0 {
			for w, count := range d.states {
				f.state[k*f.stateWords+w] -= count
			}
		}
	}
	f.merge(b)
	f.merge(a)
}

// splitAround puts breakpoints at t and t+dur. It returns the first step between
// them and the step after the last.
func (f *profile) splitAround(t, dur int32) (a, b int) {
	a = f.split(f.find(t), t)
	b = a
	for b < len(f.at) && f.at[b] < t+dur {
		b++
	}
	if b == len(f.at) || f.at[b] != t+dur {
		f.split(b-1, t+dur)
	}
	return a, b
}

// split puts a breakpoint at t, which lies in step k, and returns the step that
// starts there.
func (f *profile) split(k int, t int32) int {
	if f.at[k] == t {
		return k
	}
	f.at = insert(f.at, k+1, t)
	for w := range f.words {
		f.free = insert(f.free, (k+1)*f.words+w, f.free[k*f.words+w])
	}
	for w := range f.stateWords {
		f.state = insert(f.state, (k+1)*f.stateWords+w, f.state[k*f.stateWords+w])
	}
	return k + 1
}

// merge removes the breakpoint before step k if the step before it is the same.
func (f *profile) merge(k int) {
	if k == 0 {
		return
	}
	for w := range f.words {
		if f.free[k*f.words+w] != f.free[(k-1)*f.words+w] {
			return
		}
	}
	for w := range f.stateWords {
		if f.state[k*f.stateWords+w] != f.state[(k-1)*f.stateWords+w] {
			return
		}
	}
	f.at = append(f.at[:k], f.at[k+1:]...)
	f.free = append(f.free[:k*f.words], f.free[(k+1)*f.words:]...)
	f.state = append(f.state[:k*f.stateWords], f.state[(k+1)*f.stateWords:]...)
}

// insert is slices.Insert for one value, without its general case.
func insert[T any](s []T, k int, v T) []T {
	s = append(s, v)
	copy(s[k+1:], s[k:])
	s[k] = v
	return s
}
