package quantity

import (
	"math"
	"math/bits"
)

// abs returns |n|; n is never MinInt64.
func abs(n int64) int64 {
	if n < 0 {
		return -n
	}
	return n
}

// gcd returns the greatest common divisor of two numbers that are not negative.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// addInt returns a + b; ok is false when the sum does not fit, MinInt64 included.
func addInt(a, b int64) (n int64, ok bool) {
	s := a + b
	return s, (s > a) == (b > 0) && s != math.MinInt64
}

// mulInt returns a × b; ok is false when the product does not fit.
func mulInt(a, b int64) (n int64, ok bool) {
	hi, lo := bits.Mul64(uint64(abs(a)), uint64(abs(b)))
	if hi != 0 || lo > math.MaxInt64 {
		return 0, false
	}
	if (a < 0) != (b < 0) {
		return -int64(lo), true
	}
	return int64(lo), true
}
