package rcpsp

import (
	"fmt"
	"slices"
)

// A Curve is the cost of an activity's start time: the sum of its slopes, so that
// the cost is piecewise linear. The zero Curve costs nothing.
type Curve []Slope

// A Slope has costs of earliness and tardiness around the time At. A start before
// At costs Before once and Early for each unit of time. A start at At or later
// costs After once and Late for each unit of time. None of them may be negative.
//
// If Span is not zero, Early is charged for at most Span units of time. With the
// activity's duration as Span, Early is the cost of each unit of time that the
// activity runs before At.
type Slope struct{ At, Early, Span, Late, Before, After int }

// At returns the cost of starting at t.
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

// pieces calls yield with the first and last time of each linear piece within
// lo..hi, in order, until yield returns false.
func (c Curve) pieces(lo, hi int, yield func(first, last int) bool) {
	var room [8]int // enough for most curves without an allocation
	breaks := room[:0]
	for _, s := range c {
		if s.At > lo && s.At <= hi {
			breaks = append(breaks, s.At)
		}
		if at := s.At - s.Span; s.Span > 0 && at > lo && at <= hi {
			breaks = append(breaks, at)
		}
	}
	slices.Sort(breaks)
	for first := lo; first <= hi; {
		for len(breaks) > 0 && breaks[0] <= first {
			breaks = breaks[1:]
		}
		last := hi
		if len(breaks) > 0 {
			last = breaks[0] - 1
		}
		if !yield(first, last) {
			return
		}
		first = last + 1
	}
}

// cheapest returns the start within lo..hi that costs least, the earliest of
// several. On a linear piece it is one of the two ends.
func (c Curve) cheapest(lo, hi int) int {
	best, cost := lo, c.At(lo)
	c.pieces(lo, hi, func(first, last int) bool {
		for _, t := range [2]int{first, last} {
			if v := c.At(t); v < cost {
				best, cost = t, v
			}
		}
		return true
	})
	return best
}

func (c Curve) validate(activity int) error {
	for _, s := range c {
		for _, v := range [...]int{s.Early, s.Span, s.Late, s.Before, s.After} {
			if v < 0 || v > 64*MaxTime {
				return fmt.Errorf("activity %d, slope at %d: %d is outside 0 to %d", activity, s.At, v, 64*MaxTime)
			}
		}
		if outOfRange(s.At) {
			return fmt.Errorf("activity %d, slope at %d: the time is outside -%d to %d", activity, s.At, MaxTime, MaxTime)
		}
	}
	return nil
}

// Cost returns the sum of the costs of all start times in s.
func (p *Problem) Cost(s Schedule) int {
	sum := 0
	for i, t := range s {
		sum += p.Activities[i].Cost.At(t)
	}
	return sum
}
