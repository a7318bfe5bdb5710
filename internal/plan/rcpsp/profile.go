package rcpsp

// The profile packs the free capacity of four resources into one word, 16 bits
// each, of which 15 hold the number. Before a demand is subtracted, the top bit of
// each lane is set; a lane loses it if less was free than needed. So one
// subtraction compares four resources.
const guardBits = 0x8000_8000_8000_8000

// lane returns the position of a resource's bits in its word.
func lane(resource int) int { return resource % 4 * 16 }

// demand is what an activity needs of all resources, packed like the profile.
type demand struct {
	amounts  []uint64
	states   []uint64 // a one in the counter of each state that the activity needs
	excluded []uint64 // a mask over the counters of the states it cannot run with
	none     bool     // needs nothing and fits anywhere
}

// profile is what is free of all resources over time: a step function with a
// breakpoint where it changes. Its size depends on the number of activities and
// not on the length of time. The first breakpoint is -infinity; the last step has
// no end.
type profile struct {
	words, stateWords int
	at                []int32  // breakpoints, ascending
	free              []uint64 // words for each step: the free capacity
	state             []uint64 // stateWords for each step: users of each state
}

// copyFrom makes f a copy of g and reuses f's memory.
func (f *profile) copyFrom(g *profile) {
	f.words, f.stateWords = g.words, g.stateWords
	f.at = append(f.at[:0], g.at...)
	f.free = append(f.free[:0], g.free...)
	f.state = append(f.state[:0], g.state...)
}

// freeAt returns the free capacity of one resource in step k.
func (f *profile) freeAt(k, resource int) int32 {
	return int32(f.free[k*f.words+resource/4] >> lane(resource) & MaxCapacity)
}

// find returns the step that contains time t (binary search).
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

// fits reports whether step k has room for d.
func (f *profile) fits(k int, d *demand) bool {
	base := k * f.words
	for w, amount := range d.amounts {
		if ((f.free[base+w]|guardBits)-amount)&guardBits != guardBits {
			return false
		}
	}
	if f.stateWords > 0 {
		base = k * f.stateWords
		for w, mask := range d.excluded {
			if f.state[base+w]&mask != 0 {
				return false
			}
		}
	}
	return true
}

// earliest returns the first time from t on at which d fits for dur, or infinity.
func (f *profile) earliest(d *demand, t, dur int32) int32 {
	if d.none {
		return t
	}
	k := f.find(t)
	if f.words == 1 && f.stateWords == 0 {
		return f.earliestOneWord(d.amounts[0], k, t, dur)
	}
	for ; ; k++ {
		last := k+1 == len(f.at)
		if !f.fits(k, d) {
			if last {
				return infinity
			}
			t = f.at[k+1]
		} else if last || f.at[k+1] >= t+dur {
			return t
		}
	}
}

// earliestOneWord is earliest for up to four resources without states, from step
// k on, the most frequent case.
func (f *profile) earliestOneWord(amount uint64, k int, t, dur int32) int32 {
	free := f.free
	at := f.at[:len(free)]
	for ; k < len(free); k++ {
		if ((free[k]|guardBits)-amount)&guardBits != guardBits {
			if k+1 == len(free) {
				return infinity
			}
			t = at[k+1]
		} else if k+1 == len(at) || at[k+1] >= t+dur {
			return t
		}
	}
	return infinity
}

// latest returns the last time up to t at which d fits for dur, or -infinity.
func (f *profile) latest(d *demand, t, dur int32) int32 {
	if d.none {
		return t
	}
	for k := f.find(t + dur - 1); ; k-- {
		if !f.fits(k, d) {
			if k == 0 {
				return -infinity
			}
			t = f.at[k] - dur
		} else if k == 0 || f.at[k] <= t {
			return t
		}
	}
}
