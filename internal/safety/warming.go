package safety

import (
	"math"
	"slices"
)

// Warming is the range of temperatures that heat food as a steady medium would: the
// water of a bath, the air of an oven with what dries off the food taken into account.
// Both are 0 where nothing is known.
type Warming struct{ LowC, HighC float64 }

// Known reports whether there is a medium to forecast by.
func (w Warming) Known() bool { return w.HighC > 0 }

// boilC is where water boils by the sea, rounded.
const boilC = 100.0

// WarmingIn returns the range for food in equipment at a temperature in °C: an oven,
// whose wet food stays near the boil at its surface until it is dry, a water bath, a
// steamer, a fryer. The range of an oven is our own working range. It is not known for a
// pan or a grill.
func WarmingIn(equipment string, c float64, hasC bool) Warming {
	switch equipment {
	case "steamer":
		return Warming{boilC - 3, boilC}
	case "water bath":
		if hasC {
			return Warming{c - 1, c + 1}
		}
	case "oven", "smoker", "hot cupboard", "prover", "barbecue":
		if hasC && c > 150 {
			return Warming{boilC, c}
		}
		if hasC {
			return Warming{math.Min(boilC, c*0.75+5), c}
		}
	case "fryer":
		if hasC {
			return Warming{boilC, c}
		}
	}
	return Warming{}
}

// WarmingInBoil returns the range for food that boils or simmers in water.
func WarmingInBoil() Warming { return Warming{90, boilC} }

// A warmCourse is one way, by transient conduction, in which a core may have come to its
// readings and go on from the last one.
type warmCourse struct {
	s               *series
	mediumC, startC float64
	fourier         float64 // of the last reading
	minutesAFourier float64 // what one of Fourier's number takes
}

// at returns the core's temperature so many minutes after the last reading.
func (c *warmCourse) at(minutes float64) float64 {
	return c.mediumC + (c.startC-c.mediumC)*c.s.at(c.fourier+minutes/c.minutesAFourier)
}

// until returns the minutes from the last reading until the core is at targetC, +Inf
// where the medium never brings it there.
func (c *warmCourse) until(targetC float64) float64 {
	theta := (targetC - c.mediumC) / (c.startC - c.mediumC)
	if theta <= 0.002 {
		return math.Inf(1)
	}
	return math.Max(0, (c.fourierAt(theta)-c.fourier)*c.minutesAFourier)
}

// mostFourier is beyond the end of any heating.
const mostFourier = 60.0

// fourierAt returns Fourier's number at which a share theta of the first difference is
// left, to a millionth: a phone asks for hundreds of them.
func (c *warmCourse) fourierAt(theta float64) float64 {
	low, high := soonest, mostFourier
	for high-low > 1e-6*high {
		mid := math.Sqrt(low * high) // most answers are small
		if c.s.at(mid) > theta {
			low = mid
		} else {
			high = mid
		}
	}
	return (low + high) / 2
}

// The bodies that a course is tried with: from a thin piece in slow air to a thick one in
// moving water. A cylinder or a block lies between a wall and a ball.
var (
	warmShapes = [...]shape{wall, ball}
	warmBiots  = [...]float64{0.4, 2, 15}
)

// The errors allowed for: our own working values.
const (
	probeK = 0.5 // of a probe, and of how near the centre its tip is
	fitK   = 2.0 // by which a reading between the first and the last may miss a course
	coldC  = 4.0 // food out of the fridge
	roomC  = 20.0
)

// warmCourses returns every course that the readings allow. The readings rise from the
// first to the last. There is none where no course
// passes near all of them, and for food that is frozen at the start.
func warmCourses(log []Reading, w Warming) []warmCourse {
	first, last := log[0], log[len(log)-1]
	if !w.Known() || len(log) < 2 || first.TempC < 0 || last.TempC >= w.HighC {
		return nil
	}
	var out []warmCourse
	whole := false // a course passes near every reading
	for _, s := range warmShapes {
		for _, biot := range warmBiots {
			solved := solve(s, biot)
			for _, medium := range [...]float64{w.LowC, (w.LowC + w.HighC) / 2, w.HighC} {
				for _, start := range warmStarts(first.TempC) {
					for _, edge := range [...]float64{-probeK, probeK} {
						for from := 0; from < len(log)-1; from += max(1, len(log)-2) { // the first reading, then the last but one
							c := warmCourse{s: &solved, mediumC: medium, startC: start}
							if c.fit(log, from, edge) {
								out, whole = append(out, c), whole || from == 0
							}
						}
					}
				}
			}
		}
	}
	if !whole {
		return nil
	}
	return out
}

// warmStarts returns the temperatures at which food may have been even at the start,
// when its core was first read at c.
func warmStarts(c float64) []float64 {
	switch {
	case c <= coldC+1:
		return []float64{c}
	case c <= roomC+5:
		return []float64{coldC, c}
	}
	return []float64{coldC, roomC}
}

// fit sets the course's clock by one reading and the last, edge kelvin further apart, and
// reports whether it is possible. A course through the first reading must pass near all
// the others; one through the last two tells how the core goes on now.
func (c *warmCourse) fit(log []Reading, by int, edge float64) bool {
	first, last := log[by], log[len(log)-1]
	share := func(t float64) float64 { return (t - c.mediumC) / (c.startC - c.mediumC) }
	from, to := math.Min(1, share(first.TempC-edge)), share(last.TempC+edge)
	if !(to > 0.002) || to >= from-1e-6 {
		return false
	}
	begun := 0.0
	if from < 1 {
		begun = c.fourierAt(from)
	}
	c.fourier = c.fourierAt(to)
	c.minutesAFourier = (last.Minute - first.Minute) / (c.fourier - begun)
	if !(c.minutesAFourier > 0) || math.IsInf(c.minutesAFourier, 0) {
		return false
	}
	return by > 0 || !slices.ContainsFunc(log, func(r Reading) bool {
		return math.Abs(c.at(r.Minute-last.Minute)-r.TempC) > fitK
	})
}
