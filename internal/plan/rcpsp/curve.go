package rcpsp

import (
	"fmt"
	"slices"
)

// A Curve is the cost of starting at a time: the sum of its slopes. The zero
// Curve costs nothing.
type Curve []Slope

// A Slope costs Early for each unit of time before At and Late for each after,
// and flatly Before if the start is before At and After if it is not: the price
// of doing a thing on one day and not another. None may be negative.
//
// Early is charged for at most Span units, if that is not zero: with an
// activity's length for Span it is the price of each unit that it runs before At.
type Slope struct{ At, Early, Span, Late, Before, After int }

// At is the cost of starting at t.
func (c Curve) At(t int) int {
	sum := 0
	for _, s := range c {
		if t < s.At {
			n := s.At - t
			if s.Span > 0 {
				n = min(n, s.Span)
			}
			sum += s.Early*n + s.Before
		} else {
			sum += s.Late*(t-s.At) + s.After
		}
	}
	return sum
}

// pieces hands on the straight pieces of the curve within lo..hi, first to
// last, until yield says no.
func (c Curve) pieces(lo, hi int, yield func(a, b int) bool) {
	var room [8]int
	bends := room[:0]
	for _, s := range c {
		if s.At > lo && s.At <= hi {
			bends = append(bends, s.At)
		}
		if at := s.At - s.Span; s.Span > 0 && at > lo && at <= hi {
			bends = append(bends, at)
		}
	}
	slices.Sort(bends)
	for a := lo; a <= hi; {
		for len(bends) > 0 && bends[0] <= a {
			bends = bends[1:]
		}
		b := hi
		if len(bends) > 0 {
			b = bends[0] - 1
		}
		if !yield(a, b) {
			return
		}
		a = b + 1
	}
}

// best is the least-cost start within lo..hi: on each straight piece it is at
// one of the ends. Ties go to the earliest.
func (c Curve) best(lo, hi int) int {
	at, cost := lo, c.At(lo)
	c.pieces(lo, hi, func(a, b int) bool {
		for _, t := range [2]int{a, b} {
			if v := c.At(t); v < cost {
				at, cost = t, v
			}
		}
		return true
	})
	return at
}

func (c Curve) validate(activity int) error {
	for _, s := range c {
		for _, weight := range [...]int{s.Early, s.Span, s.Late, s.Before, s.After} {
			if weight < 0 || weight > 64*MaxTime {
				return fmt.Errorf("activity %d: slope at %d: a weight must lie in 0 to %d", activity, s.At, 64*MaxTime)
			}
		}
		if out(s.At) {
			return fmt.Errorf("activity %d: slope at %d: its time is out of range", activity, s.At)
		}
	}
	return nil
}
