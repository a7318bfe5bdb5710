package safety

import (
	"fmt"
	"math"
)

// Way is another way to cool the same food, and its forecast.
type Way struct {
	Words  string
	Stages []Stage
	Meets  bool // every limit that can be judged is met at the slow end
}

// Better returns ways to cool the same food more quickly, each compared with the
// limits, the least work first: half the depth, a third of the depth, an ice bath, a
// stirred ice bath, a blast chiller, and half the depth in an ice bath.
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

// share returns the body as one of n equal parts: in a vessel with a floor it is less
// deep, other shapes are smaller.
func (b Body) share(n float64) Body {
	if b.flat() {
		b.DepthM /= n
		return b
	}
	b.DiameterM /= math.Pow(n, map[Shape]float64{Roll: 1.0 / 2, Globe: 1.0 / 3}[b.Shape])
	return b
}

// flat reports whether the shape has a floor, so that it can be made less deep.
func (b Body) flat() bool { return b.Shape == Slab || b.Shape == Pan || b.Shape == Pot }

// sayShare returns the words for a share, with the present depth where it has one.
func (b Body) sayShare(flat, other string) string {
	if b.flat() {
		return fmt.Sprintf("%s (%.0f mm now)", flat, b.DepthM*1000)
	}
	return other
}
