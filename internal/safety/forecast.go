package safety

import (
	"fmt"
	"math"
)

// Forecast is the temperature of the centre, the slowest place, over time. It has three
// courses: with the film at the low end of its range, at the geometric mean, and at the
// high end.
type Forecast struct {
	Body    Body
	In      Surroundings
	FromC   float64
	Assumed []string // what was assumed, in words
	courses [3]course
	pace    [3]float64 // of the clock of each course; 1 until measured
}

// Band is a time in minutes by the slow, the middle and the quick course.
type Band struct{ Slow, Mid, Quick float64 }

// course is one course of a forecast: a product of one-dimensional solutions where heat
// moves by conduction, an exponential for thin food.
type course struct {
	parts []part
	tau   float64 // time constant of thin food in seconds, else 0
}

// part is the solution along one dimension.
type part struct {
	s    series
	perS float64 // Fourier number per second
}

// theta returns the share of the first temperature difference that is left after s
// seconds.
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

// NewForecast returns how a body at an even temperature of fromC approaches that of its
// surroundings, by transient conduction with convection at the surface. Errors say what
// is missing, impossible or without a basis; nothing is guessed.
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

// newCourse returns the course of a body with one film in W/(m² K).
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

// At returns the temperature of the centre in °C after so many minutes, by the slow,
// the middle and the quick course.
func (f *Forecast) At(minutes float64) (slow, mid, quick float64) {
	var out [3]float64
	for i := range f.courses {
		out[i] = f.In.MediumC + (f.FromC-f.In.MediumC)*f.courses[i].theta(math.Max(0, minutes)*60*f.pace[i])
	}
	return out[0], out[1], out[2]
}

// forever is the longest time of a forecast: ten days, in minutes.
const forever = 10 * 1440.0

// Cools returns the minutes until the centre has cooled to c °C: 0 where it is colder
// at the start, +Inf where the surroundings are not colder than c or ten days are not
// enough.
func (f *Forecast) Cools(c float64) Band {
	var out [3]float64
	for i := range f.courses {
		out[i] = f.cools(i, c)
	}
	return Band{out[0], out[1], out[2]}
}

// cools is [Forecast.Cools] by one course.
func (f *Forecast) cools(i int, c float64) float64 {
	switch {
	case f.FromC <= c:
		return 0
	case f.In.MediumC >= c:
		return math.Inf(1)
	}
	return f.until(i, c)
}

// until returns the minutes until one course of the centre reaches c °C, +Inf where it does not.
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
