package rcpsp

// A Random generates pseudo-random numbers. It is the only source of randomness in
// this package; callers that need numbers of the same kind may use it too.
//
// The generator is xorshift64*: 64 bits of state, a period of 2^64 - 1, and not fit
// for secrets. It is our own because the sequence must never change: package
// math/rand/v2 does not promise the same numbers in every version of Go, and a
// different sequence would give different schedules.
//
// A Random is not safe for concurrent use.
type Random struct{ state uint64 } // never zero: zero would stay zero

// NewRandom returns a generator for a seed. One step of SplitMix64 spreads the
// seed over all bits, so that the seeds 1, 2, 3 give unrelated sequences.
func NewRandom(seed uint64) *Random {
	z := seed + 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return &Random{state: (z ^ z>>31) | 1}
}

// next returns 64 random bits. The upper bits are better than the lower ones.
func (r *Random) next() uint64 {
	r.state ^= r.state >> 12
	r.state ^= r.state << 25
	r.state ^= r.state >> 27
	return r.state * 0x2545f4914f6cdd1d
}

// below returns a number from 0 to n-1; n must be positive and less than 2^31.
// For the small n used here the numbers are equally likely to within n / 2^32.
func (r *Random) below(n int) int {
	return int((r.next() >> 32) * uint64(n) >> 32)
}

// Unit returns a number from 0 up to, but not including, 1.
func (r *Random) Unit() float64 { return float64(r.next()>>11) / (1 << 53) }

// shuffle puts list into random order (Fisher-Yates).
func (r *Random) shuffle(list []int32) {
	for k := len(list) - 1; k > 0; k-- {
		x := r.below(k + 1)
		list[k], list[x] = list[x], list[k]
	}
}
