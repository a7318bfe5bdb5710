package safety

import (
	"fmt"
	"math"
)

// Weighing is the weight of what reduces in a pot, without the pot. Minutes count from
// any start, the same for all weighings.
type Weighing struct {
	Minute float64
	Kg     float64
}

// Reduced is when a pot will have reduced to its target.
type Reduced struct {
	Target  float64
	Minute  float64 // when, on the clock of the weighings
	Early   float64 // the band that the scale and the boil leave
	Late    float64 // +Inf where the weights are too near each other to tell
	KgPerH  float64 // what boils away in an hour
	Already bool    // the last weight is at or under the target
	Assumed []string
}

// Reduction returns when a pot will have reduced to targetKg, from two weighings or
// more in order of time, if the boil stays as it is: what boils away in an hour depends
// on the heat and not on how much is left. readKg is the error of the scale (0: a
// hundredth of the first weight). Errors say which weighing or target is impossible.
func Reduction(log []Weighing, targetKg, readKg float64) (Reduced, error) {
	if len(log) < 2 {
		return Reduced{}, fmt.Errorf("one weight gives no rate: weigh again in ten minutes")
	}
	for i, w := range log {
		switch {
		case math.IsNaN(w.Kg) || w.Kg <= 0 || w.Kg > 1000 || math.IsNaN(w.Minute) || math.IsInf(w.Minute, 0):
			return Reduced{}, fmt.Errorf("weighing %d: a pot can't weigh %.3g kg: was the pot's own weight taken off twice?", i+1, w.Kg)
		case i > 0 && w.Minute <= log[i-1].Minute:
			return Reduced{}, fmt.Errorf("weighing %d: it is not later than the one before: amend its time", i+1)
		}
	}
	first, last := log[0], log[len(log)-1]
	if math.IsNaN(targetKg) || targetKg <= 0 || targetKg >= first.Kg {
		return Reduced{}, fmt.Errorf("the target must lie over 0 and under the first weight of %.3g kg", first.Kg)
	}
	if math.IsNaN(readKg) || readKg <= 0 {
		readKg = first.Kg / 100
	}
	slope, at, level := line(log)
	out := Reduced{Target: targetKg, KgPerH: math.Max(0, -slope*60),
		Assumed: []string{"the heat stays as it is", "nothing is added or taken out", "the weight is without the pot"}}
	if last.Kg <= targetKg {
		out.Already, out.Minute, out.Early, out.Late = true, last.Minute, last.Minute, last.Minute
		return out, nil
	}
	if slope >= 0 {
		return Reduced{}, fmt.Errorf("it has not lost weight since minute %.0f: is it at the boil, was something added?", first.Minute)
	}
	// Each end of the line may be wrong by the error of the scale, and a boil is
	// never steady to better than a twentieth: common practice, no source.
	wobble := math.Max(2*readKg/(last.Minute-first.Minute), -slope/20)
	out.Minute = math.Max(last.Minute, at+(targetKg-level)/slope)
	out.Early = math.Max(last.Minute, math.Min(out.Minute, last.Minute+(last.Kg-readKg-targetKg)/(wobble-slope)))
	out.Late = math.Inf(1)
	if wobble < -slope {
		out.Late = math.Max(out.Minute, last.Minute+(last.Kg+readKg-targetKg)/(-slope-wobble))
	}
	return out, nil
}

// line returns the straight line nearest to the weights, by least squares: its slope in
// kg per minute, and a point on it.
func line(log []Weighing) (slope, minute, kg float64) {
	n := float64(len(log))
	for _, w := range log {
		minute += w.Minute / n
		kg += w.Kg / n
	}
	var up, down float64
	for _, w := range log {
		up += (w.Minute - minute) * (w.Kg - kg)
		down += (w.Minute - minute) * (w.Minute - minute)
	}
	return up / down, minute, kg
}
