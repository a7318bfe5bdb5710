package rcpsp

// chance is a small generator of pseudo-random numbers (xorshift64*, Vigna 2016,
// from memory): the same seed gives the same numbers on every machine and with
// every version of Go, which the standard generators do not promise.
type chance struct{ x uint64 }

func newChance(seed uint64) *chance {
	// One round of mixing, so that seeds 1, 2, 3 start far apart and none is zero.
	z := seed + 0x9e3779b97f4a7c15
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return &chance{x: (z ^ z>>31) | 1}
}

func (c *chance) next() uint64 {
	c.x ^= c.x >> 12
	c.x ^= c.x << 25
	c.x ^= c.x >> 27
	return c.x * 0x2545f4914f6cdd1d
}

// below gives a number in 0..n-1; n must be positive. The bias for small n is
// below one in a hundred million.
func (c *chance) below(n int) int {
	return int((c.next() >> 32) * uint64(n) >> 32)
}

// unit gives a number in [0, 1).
func (c *chance) unit() float64 { return float64(c.next()>>11) / (1 << 53) }
