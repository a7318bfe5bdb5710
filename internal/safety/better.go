package safety

import (
	"fmt"
	"math"
)

// Way is another way to cool the same food, and what it would give.
type Way struct {
	Words  string
	Stages []Stage
	Meets  bool // every limit that can be judged is met even at the slow end
}

// Better lists ways to cool the same food more quickly, with what each gives
// against the limits, the least trouble first: half the depth, split in three,
// an ice bath, an ice bath stirred, blast, and the ice bath with half the depth.
func (f *Forecast) Better(limits []Limit) []Way {
	var out []Way
	try := func(words string, b Body, name string, mediumC float64) {
		in := f.In
		if name != "" {
			var err error
			if in, err = In(name, mediumC); err != nil {
				return
			}
		}
		g, err := NewForecast(b, in, f.FromC)
		if err != nil {
			return
		}
		w := Way{Words: words, Stages: g.Stages(limits), Meets: true}
		judged := 0
		for _, s := range w.Stages {
			if s.State != NotJudged {
				judged++
				w.Meets = w.Meets && s.State == Met
			}
		}
		w.Meets = w.Meets && judged > 0
		out = append(out, w)
	}
	half, third := f.Body.share(2), f.Body.share(3)
	split := "cut or poured into"
	try(f.Body.sayShare("half the depth", split+" 2 of the same shape"), half, "", 0)
	try(f.Body.sayShare("a third of the depth, in 3 vessels", split+" 3 of the same shape"), third, "", 0)
	if f.In.Name != "ice bath" && f.In.Name != "stirred ice bath" {
		try("in an ice bath", f.Body, "ice bath", 0)
	}
	if f.Body.Thin && f.In.Name != "stirred ice bath" {
		try("in an ice bath, stirred", f.Body, "stirred ice bath", 0)
	}
	if f.In.Name != "blast" {
		try("in a blast chiller at −5 °C", f.Body, "blast", -5)
	}
	try(f.Body.sayShare("half the depth, in an ice bath", split+" 2 of the same shape, in an ice bath"), half, "ice bath", 0)
	return out
}

// share is the body when it is shared among n vessels: those with a floor stand
// less deep, the others are smaller.
func (b Body) share(n float64) Body {
	if b.flat() {
		b.DepthM /= n
		return b
	}
	b.DiameterM /= math.Pow(n, map[Shape]float64{Roll: 1.0 / 2, Globe: 1.0 / 3}[b.Shape])
	return b
}

func (b Body) flat() bool { return b.Shape == Slab || b.Shape == Pan || b.Shape == Pot }

func (b Body) sayShare(flat, other string) string {
	if b.flat() {
		return fmt.Sprintf("%s (%.0f mm now)", flat, b.DepthM*1000)
	}
	return other
}

// Measure sets the forecast's clock by what was measured: minutes from its start
// and the temperature of the centre. The pace of each course is the one nearest
// to the readings; where the readings disagree, the band stays wide. Readings
// that no pace can give (warmer than the start, colder than the surroundings)
// are an error: something else happens than was assumed.
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
			continue // too early to tell a pace
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
	spread := 0.05 // a probe is never in the very centre
	for _, p := range paces {
		spread = math.Max(spread, math.Abs(p/mid-1))
	}
	for i := range f.courses {
		f.courses[i] = f.courses[1]
	}
	f.pace = [3]float64{mid / (1 + spread), mid, mid * (1 + spread)}
	f.Assumed = append(f.Assumed, fmt.Sprintf("its clock set by %d readings: %.2f times the middle course", len(paces), mid))
	return nil
}
