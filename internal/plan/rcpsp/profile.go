package rcpsp

// Availability is packed four resources to a word, fifteen bits each. The top
// bit of a lane is set before a need is taken away and is lost if the lane
// had less: one subtraction compares four resources.
const guards = 0x8000_8000_8000_8000

// uses is what an activity takes, packed like the profile. States are counted
// in bytes, one for each state a resource can be in: adds counts this
// activity's own in, others masks the states it can't run beside.
type uses struct {
	take         []uint64
	adds, others []uint64
	none         bool // takes nothing, fits anywhere
}

// profile is what is free over time: a step function with a breakpoint where it
// changes, so that its size follows the number of activities and not the number
// of minutes. The first breakpoint is before all time, the last holds for ever.
type profile struct {
	words, marks int
	at           []int32
	free         []uint64 // words for each breakpoint
	state        []uint64 // marks for each breakpoint
}

func (f *profile) copyFrom(g *profile) {
	f.words, f.marks = g.words, g.marks
	f.at = append(f.at[:0], g.at...)
	f.free = append(f.free[:0], g.free...)
	f.state = append(f.state[:0], g.state...)
}

// find gives the step that t lies in.
func (f *profile) find(t int32) int {
	lo, hi := 0, len(f.at)
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if f.at[mid] <= t {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func (f *profile) fits(k int, u *uses) bool {
	base := k * f.words
	for w, need := range u.take {
		if ((f.free[base+w]|guards)-need)&guards != guards {
			return false
		}
	}
	if f.marks > 0 {
		base = k * f.marks
		for w, mask := range u.others {
			if f.state[base+w]&mask != 0 {
				return false
			}
		}
	}
	return true
}

// earliest is the first time from t on at which u can run for dur; never if
// there is none.
func (f *profile) earliest(u *uses, t, dur int32) int32 {
	if u.none {
		return t
	}
	k := f.find(t)
	if f.words == 1 && f.marks == 0 {
		need := u.take[0]
		free := f.free
		at := f.at[:len(free)]
		for ; k < len(free); k++ {
			if ((free[k]|guards)-need)&guards != guards {
				if k+1 == len(free) {
					return never
				}
				t = at[k+1]
			} else if k+1 == len(at) || at[k+1] >= t+dur {
				return t
			}
		}
		return never
	}
	for ; ; k++ {
		last := k+1 == len(f.at)
		if !f.fits(k, u) {
			if last {
				return never
			}
			t = f.at[k+1]
		} else if last || f.at[k+1] >= t+dur {
			return t
		}
	}
}

// latest is the last time up to t at which u can run for dur; always if there
// is none.
func (f *profile) latest(u *uses, t, dur int32) int32 {
	if u.none {
		return t
	}
	for k := f.find(t + dur - 1); ; k-- {
		if !f.fits(k, u) {
			if k == 0 {
				return always
			}
			t = f.at[k] - dur
		} else if k == 0 || f.at[k] <= t {
			return t
		}
	}
}

// take makes u run from t for dur; it must fit.
func (f *profile) take(u *uses, t, dur int32) {
	if u.none {
		return
	}
	a, b := f.carve(t, dur)
	for k := a * f.words; k < b*f.words; {
		for _, need := range u.take {
			f.free[k] -= need
			k++
		}
	}
	if f.marks > 0 {
		for k := a * f.marks; k < b*f.marks; {
			for _, add := range u.adds {
				f.state[k] += add
				k++
			}
		}
	}
}

// give undoes take. Breakpoints that no longer divide anything go.
func (f *profile) give(u *uses, t, dur int32) {
	if u.none {
		return
	}
	a, b := f.carve(t, dur) // another give may have joined what lies on both sides
	for k := a; k < b; k++ {
		for w, need := range u.take {
			f.free[k*f.words+w] += need
		}
		if f.marks > 0 {
			for w, add := range u.adds {
				f.state[k*f.marks+w] -= add
			}
		}
	}
	f.join(b)
	f.join(a)
}

// carve makes breakpoints at t and t+dur and gives the steps from the one to
// before the other.
func (f *profile) carve(t, dur int32) (a, b int) {
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

// split makes a breakpoint at t, which lies in step k, and gives its place.
func (f *profile) split(k int, t int32) int {
	if f.at[k] == t {
		return k
	}
	f.at = insert(f.at, k+1, t)
	for w := range f.words {
		f.free = insert(f.free, (k+1)*f.words+w, f.free[k*f.words+w])
	}
	for w := range f.marks {
		f.state = insert(f.state, (k+1)*f.marks+w, f.state[k*f.marks+w])
	}
	return k + 1
}

// join drops breakpoint k if the step before it is the same.
func (f *profile) join(k int) {
	if k == 0 {
		return
	}
	for w := range f.words {
		if f.free[k*f.words+w] != f.free[(k-1)*f.words+w] {
			return
		}
	}
	for w := range f.marks {
		if f.state[k*f.marks+w] != f.state[(k-1)*f.marks+w] {
			return
		}
	}
	f.at = append(f.at[:k], f.at[k+1:]...)
	f.free = append(f.free[:k*f.words], f.free[(k+1)*f.words:]...)
	f.state = append(f.state[:k*f.marks], f.state[(k+1)*f.marks:]...)
}

func insert[T any](s []T, k int, v T) []T {
	s = append(s, v)
	copy(s[k+1:], s[k:])
	s[k] = v
	return s
}
