package safety

import "math"

// Wait is how long a cooling step takes when its card does not say.
type Wait struct {
	Minutes Band     // the slow end is what a plan should hold free
	Assumed []string // what it rests on, in words; a plan shows that it assumed
	Why     string   // where there is no basis: what is missing
}

// CoolingWait is how long something takes to cool to toC: what the plan holds
// free for a cooling step that gives no wait of its own. What v leaves open is
// assumed and said:
//
//   - where: a fridge at 3 °C, an ice bath at 0 °C, a blast chiller at −5 °C;
//   - how: in trays 5 cm deep, what is thin in one pot as deep as it is wide;
//   - from: 90 °C, off the boil.
//
// ok is false where there is no basis (no class of food, no mass and no depth)
// and where it does not get there: on a bench, nothing gets to 5 °C. The three
// courses are those of the film at the surface, which is never known well.
func CoolingWait(v Vessel, toC float64) (w Wait, ok bool) {
	f, err := v.Forecast()
	if err != nil {
		return Wait{Why: err.Error()}, false
	}
	w = Wait{Minutes: f.Cools(toC), Assumed: f.Assumed}
	if math.IsNaN(w.Minutes.Slow) || math.IsInf(w.Minutes.Slow, 1) {
		return Wait{Assumed: f.Assumed, Why: "in the " + f.In.Name + " at " + Celsius(f.In.MediumC) + " it does not get to " + Celsius(toC) + " in ten days"}, false
	}
	return w, true
}

// VesselOf is how a card's cooling step stands as far as the card tells: its
// title says what it is and whether it is thin, the step's equipment and words
// say where, the batch says how much. raw is the class of raw food in it, for a
// title that names none. Where nothing tells what food it is, Class is NotKnown.
func VesselOf(title string, equipment []string, text string, kg float64, raw Class) Vessel {
	v := Vessel{Class: ClassOf(title), Kg: kg, Place: PlaceOf(equipment, text), Thin: ThinName(title)}
	switch {
	case v.Class == NotKnown && raw != NotKnown:
		v.Class = raw
	case v.Class == NotKnown && v.Thin:
		v.Class = Stock // mostly water
	}
	return v
}

// ThinName says whether a name is of something that moves by itself as it
// cools. What thickens a liquid is not seen by a name, so that soups and sauces
// are not thin until somebody says so.
func ThinName(name string) bool {
	t := tokens(name)
	return hasAny(t, "stock, broth, consomme, whey, milk, juice, liquor, brine, syrup, cordial, tea, infusion, clear soup") &&
		!hasAny(t, "soup, puree, jelly, braised, poached, glazed, reduced, thick")
}

// PlaceOf is the place of a step by its equipment and its words, as [In] knows
// it; "" where none is named.
func PlaceOf(equipment []string, text string) string {
	var names []string
	for _, e := range equipment {
		names = append(append(names, tokens(e)...), "")
	}
	t := tokens(text)
	switch {
	case hasAny(names, "ice bath") || hasAny(t, "ice bath, iced water, ice water, over ice, on ice"):
		if hasAny(t, "stir, stirring, stirred") && !hasAny(t, "now and then, from time to time, once") {
			return "stirred ice bath"
		}
		return "ice bath"
	case hasAny(names, "blast chiller"):
		return "blast"
	case hasAny(names, "fridge") || hasAny(t, "fridge, refrigerator, cold room, chill"):
		return "fridge"
	}
	return ""
}
