package safety

import (
	"fmt"
	"math"
)

// Forecast is temperature against time at the slowest place, the centre. Three
// courses: with the film at the low end of its range, in the middle (the
// geometric mean) and at the high end.
type Forecast struct {
	Body    Body
	In      Surroundings
	FromC   float64
	Assumed []string // what it rests on, in words
	courses [3]course
	pace    [3]float64 // of the clock of each course; 1 until measured
}

// Band is a time in minutes: the slow course, the middle one, the quick one.
type Band struct{ Slow, Mid, Quick float64 }

// course is one way it may go: a product of one-dimensional solutions for what
// creeps, an exponential for what is thin.
type course struct {
	parts []part
	tau   float64 // seconds; what is thin
}

type part struct {
	s    series
	perS float64 // Fourier number a second
}

// theta is what is left of the difference after s seconds.
func (c *course) theta(s float64) float64 {
	if c.tau > 0 {
		return math.Exp(-s / c.tau)
	}
	out := 1.0
	for i := range c.parts {
		out *= c.parts[i].s.at(c.parts[i].perS * s)
	}
	return out
}

// NewForecast says how a body goes from one even temperature towards that of its
// surroundings, by transient conduction with convection at the surface. Errors
// say what is missing or has no basis; nothing is guessed.
func NewForecast(b Body, in Surroundings, fromC float64) (*Forecast, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	if err := Plausible(fromC); err != nil {
		return nil, err
	}
	switch {
	case fromC < 0:
		return nil, fmt.Errorf("it starts at %s: freezing and thawing are not forecast", Celsius(fromC))
	case math.IsNaN(in.MediumC) || in.MediumC < -60 || in.MediumC > 300:
		return nil, fmt.Errorf("the surroundings can't be at %.4g °C", in.MediumC)
	case !(in.FilmLow > 0) || in.FilmHigh < in.FilmLow || in.FilmHigh > 1e5:
		return nil, fmt.Errorf("the film needs a range over 0, in W/(m² K), the low end first")
	}
	f := &Forecast{Body: b, In: in, FromC: fromC, pace: [3]float64{1, 1, 1}}
	x := b.Composition
	if x == (Composition{}) {
		of, is, ok := CompositionOf(b.Class)
		if !ok {
			return nil, fmt.Errorf("no composition for food of class %q: name its class, or give its composition", b.Class)
		}
		x = of
		f.Assumed = append(f.Assumed, "composition of "+is+" (USDA SR28, read)")
	}
	mean := math.Min(100, math.Max(0, (fromC+in.MediumC)/2))
	p, err := x.At(mean)
	if err != nil {
		return nil, err
	}
	f.Assumed = append(f.Assumed,
		fmt.Sprintf("properties at %s all along (%s)", Celsius(mean), SourceChoiOkos),
		"even at "+Celsius(fromC)+" at the start, all sides in the "+in.Name+" at "+Celsius(in.MediumC)+" all along",
		fmt.Sprintf("film %.4g to %.4g W/(m² K): %s", in.FilmLow, in.FilmHigh, in.Source), "nothing dries off and nothing freezes")
	if b.Thin {
		f.Assumed = append(f.Assumed, "thin enough to move by itself: one temperature within")
	}
	for i, film := range [3]float64{in.FilmLow, math.Sqrt(in.FilmLow * in.FilmHigh), in.FilmHigh} {
		f.courses[i] = newCourse(b, p, film, in.Stirs)
	}
	return f, nil
}

func newCourse(b Body, p Properties, film float64, stirred bool) course {
	if b.Thin {
		if !stirred {
			film = 1 / (1/film + 1/innerFilm)
		}
		return course{tau: p.Density * p.Cp * b.volume() / (film * b.surface())}
	}
	one := func(s shape, l float64) part {
		return part{s: solve(s, film*l/p.K), perS: p.Alpha() / (l * l)}
	}
	switch b.Shape {
	case Slab:
		return course{parts: []part{one(wall, b.DepthM/2)}}
	case Pan:
		return course{parts: []part{one(wall, b.DepthM/2), one(wall, b.LengthM/2), one(wall, b.WidthM/2)}}
	case Pot:
		return course{parts: []part{one(wall, b.DepthM/2), one(cylinder, b.DiameterM/2)}}
	case Roll:
		return course{parts: []part{one(cylinder, b.DiameterM/2)}}
	}
	return course{parts: []part{one(ball, b.DiameterM/2)}}
}

// At is the temperature of the centre after so many minutes: the slow course, the
// middle one, the quick one.
func (f *Forecast) At(minutes float64) (slow, mid, quick float64) {
	var out [3]float64
	for i := range f.courses {
		out[i] = f.In.MediumC + (f.FromC-f.In.MediumC)*f.courses[i].theta(math.Max(0, minutes)*60*f.pace[i])
	}
	return out[0], out[1], out[2]
}

// forever is when nobody waits any more: ten days, in minutes.
const forever = 10 * 1440.0

// Until is when the centre reaches c. A time is +Inf where it does not within
// ten days; 0 where it is there at the start.
func (f *Forecast) Until(c float64) Band {
	var out [3]float64
	for i := range f.courses {
		out[i] = f.until(i, c)
	}
	return Band{out[0], out[1], out[2]}
}

// Cools is when the centre is down to c: 0 where it is colder at the start, +Inf
// where the surroundings are no colder than that, or within ten days.
func (f *Forecast) Cools(c float64) Band {
	var out [3]float64
	for i := range f.courses {
		out[i] = f.cools(i, c)
	}
	return Band{out[0], out[1], out[2]}
}

func (f *Forecast) cools(i int, c float64) float64 {
	switch {
	case f.FromC <= c:
		return 0
	case f.In.MediumC >= c:
		return math.Inf(1)
	}
	return f.until(i, c)
}

func (f *Forecast) until(i int, c float64) float64 {
	theta := (c - f.In.MediumC) / (f.FromC - f.In.MediumC)
	if f.FromC == f.In.MediumC {
		theta = math.NaN()
	}
	switch {
	case c == f.FromC || theta >= 1:
		return 0
	case !(theta > 0):
		return math.Inf(1)
	}
	at := func(minutes float64) float64 { return theta - f.courses[i].theta(minutes*60*f.pace[i]) }
	if at(forever) < 0 {
		return math.Inf(1)
	}
	return bisect(0, forever, at)
}
