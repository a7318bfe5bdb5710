package safety

import (
	"fmt"
	"math"
)

// Shape is the shape of what cools or heats.
type Shape string

// The shapes, with the lengths that each needs. All sides touch the surroundings.
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
	Composition Composition // used before Class where it is known
	Shape       Shape
	DepthM      float64
	LengthM     float64
	WidthM      float64
	DiameterM   float64
	// Thin says that the food circulates by itself as it cools: stock, a clear soup,
	// milk. It then has one temperature throughout. In other food (a purée, a stew,
	// rice, meat) heat moves by conduction alone.
	Thin bool
}

// volume returns the volume in m³: of one square metre of a slab, of one metre of a
// roll.
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

// surface returns the surface in m² that belongs to the volume.
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

// check returns an error for a length that is missing or impossible.
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
			return fmt.Errorf("a %s of %.4g m is not plausible for food in a kitchen: lengths are in metres, so 5 cm is 0.05", n.name, n.m)
		}
	}
	return nil
}

// DepthFor returns in metres how deep kg of food is in a vessel with straight sides
// and a floor of floorM2. A class without a composition is an error.
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

// Surroundings are what a body stands in. The film is the surface heat transfer
// coefficient in W/(m² K). It is never known well, so it is a range.
type Surroundings struct {
	Name     string
	MediumC  float64
	FilmLow  float64
	FilmHigh float64
	Stirs    bool // thin food is stirred there
	Source   Source
}

// In returns the usual surroundings with a name, at a temperature of mediumC. An
// unknown name is an error that lists the names.
func In(name string, mediumC float64) (Surroundings, error) {
	for _, s := range surroundings {
		if s.Name == name {
			s.MediumC = mediumC
			return s, nil
		}
	}
	return Surroundings{}, fmt.Errorf("no surroundings %q: say fridge, bench, blast, ice bath, stirred ice bath, oven, water bath or boiling water", name)
}

// surroundings are our own working ranges, except where the source says otherwise: no
// published range was found. The published 5.1 for a ham in chilled air is in the
// first, the 22 for a melon in a freezer in the third.
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

// innerFilm is the heat transfer coefficient in W/(m² K) inside a vessel of thin food
// that is not stirred: our own working value, near the low end of free convection in
// liquids.
const innerFilm = 100.0
