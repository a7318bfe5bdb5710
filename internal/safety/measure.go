package safety

import (
	"fmt"
	"math"
)

// Measure corrects the forecast by readings: minutes from its start, and the
// temperature of the centre. The pace becomes the one nearest to the readings, and the
// band as wide as the readings disagree. A reading that no pace can give (warmer than
// the start, colder than the surroundings) is an error: what was assumed is wrong.
func (f *Forecast) Measure(log []Reading) error {
	if err := checkLog(log); err != nil {
		return err
	}
	var paces []float64
	top, bottom := 0.0, 0.0
	for i, r := range log {
		if r.Minute <= 0 {
			continue
		}
		theta := (r.TempC - f.In.MediumC) / (f.FromC - f.In.MediumC)
		if !(theta > 0.002 && theta <= 1.02) {
			return &ProbeError{At: i + 1, Msg: fmt.Sprintf("%s does not lie between %s at the start and %s around it: look at the probe and at what it stands in",
				Celsius(r.TempC), Celsius(f.FromC), Celsius(f.In.MediumC))}
		}
		if theta > 0.98 {
			continue // too early to show a pace
		}
		model := bisect(0, forever, func(m float64) float64 { return theta - f.courses[1].theta(m*60) })
		paces = append(paces, model/r.Minute)
		top += model * r.Minute
		bottom += r.Minute * r.Minute
	}
	if len(paces) == 0 {
		return nil
	}
	mid := top / bottom
	spread := 0.05 // a probe is never exactly in the centre
	for _, p := range paces {
		spread = math.Max(spread, math.Abs(p/mid-1))
	}
	for i := range f.courses {
		f.courses[i] = f.courses[1]
	}
	f.pace = [3]float64{mid / (1 + spread), mid, mid * (1 + spread)}
	f.Assumed = append(f.Assumed, "its clock set by "+countOf(len(paces), "reading")+fmt.Sprintf(": %.2f times the middle course", mid))
	return nil
}

// countOf returns "1 reading" or "3 readings".
func countOf(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
