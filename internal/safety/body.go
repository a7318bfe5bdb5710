package safety

import (
	"fmt"
	"math"
)

// Shape is the shape of what cools or heats.
type Shape string

// The shapes. All sides meet the surroundings.
const (
	Slab  Shape = "slab"  // DepthM alone: a wide layer, a steak, a side
	Pan   Shape = "pan"   // DepthM, LengthM, WidthM: a tray, a loaf, a block
	Pot   Shape = "pot"   // DepthM, DiameterM: a pot, a bucket, a tub
	Roll  Shape = "roll"  // DiameterM alone: a long roll, a ballotine
	Globe Shape = "globe" // DiameterM: an egg, an apple, a round joint
)

// Body is what cools or heats: lengths in metres.
type Body struct {
	Class       Class       // sets the composition where Composition is empty
	Composition Composition // the cook's own, if known
	Shape       Shape
	DepthM      float64
	LengthM     float64
	WidthM      float64
	DiameterM   float64
	// Thin says that it moves by itself as it cools: stock, a clear soup, milk. It
	// is then one temperature within; else heat has to creep through it. A purée,
	// a stew, rice and meat are not thin.
	Thin bool
}

// volume in m³ and surface in m²; a slab's are those of one square metre of it,
// a roll's those of one metre.
func (b Body) volume() float64 {
	switch b.Shape {
	case Slab:
		return b.DepthM
	case Pan:
		return b.DepthM * b.LengthM * b.WidthM
	case Pot:
		return b.DepthM * math.Pi * b.DiameterM * b.DiameterM / 4
	case Roll:
		return math.Pi * b.DiameterM * b.DiameterM / 4
	}
	return math.Pi * b.DiameterM * b.DiameterM * b.DiameterM / 6
}

func (b Body) surface() float64 {
	switch b.Shape {
	case Slab:
		return 2
	case Pan:
		return 2 * (b.DepthM*b.LengthM + b.DepthM*b.WidthM + b.LengthM*b.WidthM)
	case Pot:
		return math.Pi*b.DiameterM*b.DepthM + math.Pi*b.DiameterM*b.DiameterM/2
	case Roll:
		return math.Pi * b.DiameterM
	}
	return math.Pi * b.DiameterM * b.DiameterM
}

// check finds a length that is missing or cannot be.
func (b Body) check() error {
	need := map[Shape][]struct {
		name string
		m    float64
	}{
		Slab:  {{"depth", b.DepthM}},
		Pan:   {{"depth", b.DepthM}, {"length", b.LengthM}, {"width", b.WidthM}},
		Pot:   {{"depth", b.DepthM}, {"diameter", b.DiameterM}},
		Roll:  {{"diameter", b.DiameterM}},
		Globe: {{"diameter", b.DiameterM}},
	}[b.Shape]
	if need == nil {
		return fmt.Errorf("no shape %q: say slab, pan, pot, roll or globe", b.Shape)
	}
	for _, n := range need {
		switch {
		case math.IsNaN(n.m) || n.m <= 0:
			return fmt.Errorf("a %s needs its %s, over 0", b.Shape, n.name)
		case n.m < 0.001 || n.m > 3:
			return fmt.Errorf("a %s of %.4g m is no food in a kitchen: lengths are in metres, so 5 cm is 0.05", n.name, n.m)
		}
	}
	return nil
}

// DepthFor is how deep so many kilograms stand in a straight-sided vessel with
// a floor of so many square metres.
func DepthFor(kg, floorM2 float64, class Class) (float64, error) {
	x, _, ok := CompositionOf(class)
	if !ok {
		return 0, fmt.Errorf("no composition for food of class %q: give the depth", class)
	}
	if !(kg > 0) || !(floorM2 > 0) || math.IsInf(kg, 0) || math.IsInf(floorM2, 0) {
		return 0, fmt.Errorf("a depth needs a mass and a floor over 0, in kg and m²")
	}
	p, err := x.At(20)
	if err != nil {
		return 0, err
	}
	return kg / (p.Density * floorM2), nil
}

// Surroundings are what it stands in: the film is what heat has to pass at the
// surface, W/(m² K), and is never known well, so it is a range.
type Surroundings struct {
	Name     string
	MediumC  float64
	FilmLow  float64
	FilmHigh float64
	Stirs    bool // what is thin is stirred there
	Source   Source
}

// In is one of the usual surroundings by its name; mediumC is how warm it is.
func In(name string, mediumC float64) (Surroundings, error) {
	for _, s := range surroundings {
		if s.Name == name {
			s.MediumC = mediumC
			return s, nil
		}
	}
	return Surroundings{}, fmt.Errorf("no surroundings %q: say fridge, bench, blast, ice bath, stirred ice bath, oven, water bath or boiling water", name)
}

// surroundings are own working ranges, but where the source says more: no single
// published value was found. A published 5.1 for a ham in chilled air lies in the
// first, 22 for a melon in a freezer in the third.
var surroundings = []Surroundings{
	{Name: "fridge", FilmLow: 5, FilmHigh: 10, Source: Source{"a still fridge, radiation among it", "", Practice}},
	{Name: "bench", FilmLow: 5, FilmHigh: 10, Source: Source{"still air, radiation among it", "", Practice}},
	{Name: "blast", FilmLow: 20, FilmHigh: 40, Source: Source{"air at 3 to 5 m/s", "", Practice}},
	{Name: "ice bath", FilmLow: 100, FilmHigh: 300, Source: Source{"water with ice, not stirred", "", Practice}},
	{Name: "stirred ice bath", FilmLow: 300, FilmHigh: 1000, Stirs: true, Source: Source{"water with ice, both stirred", "", Practice}},
	{Name: "oven", FilmLow: 10, FilmHigh: 30, Source: Source{"oven air, still to moved; what dries outside stays cooler", "", Practice}},
	{Name: "water bath", FilmLow: 100, FilmHigh: 1000, Source: Source{"moved water; Incropera Table 1.1 has 100 to 20 000 for liquids (from memory)", "", Practice}},
	{Name: "boiling water", FilmLow: 800, FilmHigh: 1400, Source: Source{"egg in boiling water, Cengel, problems of ch. 4", "", Read}},
}

// innerFilm is what heat has to pass inside a vessel of something thin that
// nobody stirs; own working value, the low end of free convection in liquids.
const innerFilm = 100.0
