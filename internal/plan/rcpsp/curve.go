package rcpsp

import "fmt"

// A Curve is a convex cost of starting at a time, made of straight pieces that
// each count only on one side of a point. The zero Curve costs nothing.
type Curve []Slope

// A Slope costs Early for each unit of time before At and Late for each after.
// Neither may be negative, which is what keeps a sum of slopes convex.
type Slope struct{ At, Early, Late int }

// At is the cost of starting at t.
func (c Curve) At(t int) int {
	sum := 0
	for _, s := range c {
		if t < s.At {
			sum += s.Early * (s.At - t)
		} else {
			sum += s.Late * (t - s.At)
		}
	}
	return sum
}

// best is the least-cost start within lo..hi: a convex curve has its least
// value at a bend or at the edge. Ties go to the earliest.
func (c Curve) best(lo, hi int) int {
	at, cost := lo, c.At(lo)
	try := func(t int) {
		if t < lo || t > hi {
			return
		}
		if v := c.At(t); v < cost || v == cost && t < at {
			at, cost = t, v
		}
	}
	for _, s := range c {
		try(s.At)
	}
	try(hi)
	return at
}

func (c Curve) validate(activity int) error {
	for _, s := range c {
		if s.Early < 0 || s.Late < 0 || s.Early > MaxTime || s.Late > MaxTime || out(s.At) {
			return fmt.Errorf("activity %d: slope at %d: a weight must lie in 0 to %d and its time in range", activity, s.At, MaxTime)
		}
	}
	return nil
}
