package safety

import (
	"fmt"
	"math"
	"strings"
)

// Vessel is what a cook says about something that cools: how much, how deep, how wide,
// and where. Everything may be left open (0 or false); [Vessel.Body] and [Vessel.Around]
// assume what they need and say so.
type Vessel struct {
	Class    Class
	Kg       float64
	DepthM   float64
	AcrossM  float64 // of a round pot, a roll, a ball
	LengthM  float64 // of a tray, with WidthM
	WidthM   float64
	Roll     bool   // a long roll
	Ball     bool   // an egg, an apple, a round joint
	Thin     bool   // stock, milk: it circulates by itself
	Thick    bool   // a purée, a stew: heat moves by conduction alone
	Place    string // as [In] names it: "fridge", "ice bath"
	PlaceC   float64
	HasPlace bool // PlaceC counts
	FromC    float64
	HasFrom  bool // FromC counts
}

// usualC is how warm the usual places are when the cook has not measured: our own
// working values. A fridge that is opened all day is not at 2 °C.
var usualC = map[string]float64{"fridge": 3, "bench": 20, "blast": -5, "ice bath": 0, "stirred ice bath": 0}

// usualDepth is how deep cooked food is in a tray, in metres, where the cook does not
// say. US FDA Food Code 3-501.15(A)(1) asks for shallow pans and gives no depth (from
// memory); the depth is common practice, no source.
const usualDepth = 0.05

// Over returns v with what it leaves open filled in from w.
func (v Vessel) Over(w Vessel) Vessel {
	num := func(a *float64, b float64) {
		if *a == 0 {
			*a = b
		}
	}
	if v.Class == NotKnown {
		v.Class = w.Class
	}
	num(&v.Kg, w.Kg)
	if v.DepthM == 0 && v.AcrossM == 0 && v.LengthM == 0 && !v.Roll && !v.Ball { // all lengths are filled in together or not at all
		v.DepthM, v.AcrossM, v.LengthM, v.WidthM, v.Roll, v.Ball = w.DepthM, w.AcrossM, w.LengthM, w.WidthM, w.Roll, w.Ball
	}
	if !v.Thin && !v.Thick {
		v.Thin, v.Thick = w.Thin, w.Thick
	}
	if v.Place == "" {
		v.Place = w.Place
		if !v.HasPlace {
			v.PlaceC, v.HasPlace = w.PlaceC, w.HasPlace
		}
	}
	if !v.HasFrom {
		v.FromC, v.HasFrom = w.FromC, w.HasFrom
	}
	return v
}

// Body returns the shape that cools, and what was assumed for it, in words. The error
// says what is missing. What food it is is never assumed.
func (v Vessel) Body() (b Body, assumed []string, err error) {
	b = Body{Class: v.Class, DepthM: v.DepthM, DiameterM: v.AcrossM, LengthM: v.LengthM, WidthM: v.WidthM}
	if _, _, ok := CompositionOf(v.Class); !ok {
		return b, nil, fmt.Errorf("what food is it? say stock, rice, meat, fish, vegetables or cooked food: without that there is no number")
	}
	if v.Kg < 0 || math.IsNaN(v.Kg) || v.Kg > 1000 {
		return b, nil, fmt.Errorf("%.4g kg is not a mass of food to cool in one vessel", v.Kg)
	}
	b.Thin = v.Thin
	if v.Class == Stock && !v.Thin && !v.Thick {
		assumed = append(assumed, "taken as thick: a clear stock that moves by itself cools quicker; say thin")
	}
	switch {
	case v.Roll && v.AcrossM > 0:
		b.Shape, b.Thin = Roll, false
	case v.Ball && v.AcrossM > 0:
		b.Shape, b.Thin = Globe, false
	case v.Roll || v.Ball:
		return b, nil, fmt.Errorf("how thick is it? say how many cm across")
	case v.LengthM > 0 && v.WidthM > 0:
		b.Shape = Pan
		if b.DepthM == 0 {
			if b.DepthM, err = v.depth(v.LengthM * v.WidthM); err != nil {
				return b, nil, err
			}
			assumed = append(assumed, fmt.Sprintf("%s deep, by its mass", centimetres(b.DepthM)))
		}
	case v.LengthM > 0 || v.WidthM > 0:
		return b, nil, fmt.Errorf("a tray has a length and a width: say 53 × 33 cm")
	case v.AcrossM > 0:
		b.Shape = Pot
		if b.DepthM == 0 {
			if b.DepthM, err = v.depth(math.Pi / 4 * v.AcrossM * v.AcrossM); err != nil {
				return b, nil, err
			}
			assumed = append(assumed, fmt.Sprintf("%s deep, by its mass", centimetres(b.DepthM)))
		}
	case v.DepthM > 0:
		b.Shape = Slab
		assumed = append(assumed, "wide: nothing is counted for its sides")
	case v.Thin && v.Kg > 0:
		b.Shape = Pot
		p, err := mustCompose(v.Class).At(20)
		if err != nil {
			return b, nil, err
		}
		b.DiameterM = math.Cbrt(4 * v.Kg / p.Density / math.Pi)
		b.DepthM = b.DiameterM
		assumed = append(assumed, fmt.Sprintf("in one pot as deep as it is wide, %s", centimetres(b.DepthM)))
	case v.Kg > 0:
		b.Shape, b.DepthM = Slab, usualDepth
		assumed = append(assumed, "spread "+centimetres(usualDepth)+" deep in wide trays (common practice, no source)")
	default:
		return b, nil, fmt.Errorf("say how deep it is, or what it weighs")
	}
	return b, assumed, b.check()
}

// mustCompose returns the composition of a class that is known to have one.
func mustCompose(c Class) Composition { x, _, _ := CompositionOf(c); return x }

// depth returns how deep the food is on a floor of so many square metres, by its mass.
func (v Vessel) depth(floor float64) (float64, error) {
	if v.Kg == 0 {
		return 0, fmt.Errorf("say how deep it is, or what it weighs")
	}
	return DepthFor(v.Kg, floor, v.Class)
}

// Around returns the surroundings, and what was assumed for them, in words. A place
// without a usual temperature needs one.
func (v Vessel) Around() (in Surroundings, assumed []string, err error) {
	place, c := v.Place, v.PlaceC
	if place == "" {
		place = "fridge"
		assumed = append(assumed, "in a fridge")
	}
	if !v.HasPlace {
		usual, ok := usualC[place]
		if !ok {
			return in, nil, fmt.Errorf("how warm is the %s? say %s at 80 °C", place, place)
		}
		c = usual
		assumed = append(assumed, fmt.Sprintf("the %s at %s", place, Celsius(c)))
	}
	in, err = In(place, c)
	return in, assumed, err
}

// Forecast returns the forecast for the vessel's body and surroundings. Where the vessel
// does not say how warm the food is at the start, 90 °C is assumed. Errors are those of
// [Vessel.Body], [Vessel.Around] and [NewForecast].
func (v Vessel) Forecast() (*Forecast, error) {
	b, shape, err := v.Body()
	if err != nil {
		return nil, err
	}
	in, place, err := v.Around()
	if err != nil {
		return nil, err
	}
	from, start := v.FromC, []string(nil)
	if !v.HasFrom {
		from, start = 90, []string{"off the boil: 90 °C at the start"}
	}
	f, err := NewForecast(b, in, from)
	if err != nil {
		return nil, err
	}
	f.Assumed = append(append(append(shape, place...), start...), f.Assumed...)
	return f, nil
}

// centimetres returns a length as text: "7 cm", "4.5 cm".
func centimetres(m float64) string {
	return strings.TrimSuffix(fmt.Sprintf("%.1f", m*100), ".0") + " cm"
}
