package safety

import "math"

// Wait is how long a cooling step takes when its card does not say.
type Wait struct {
	Minutes Band     // a plan keeps the slow end free
	Assumed []string // what was assumed, in words, for the plan to show
	Why     string   // what is missing, where there is no basis
}

// CoolingWait returns how long something takes to cool to toC, for a plan whose cooling
// step gives no wait. What v leaves open is assumed, and listed in Assumed:
//
//   - where: a fridge at 3 °C, an ice bath at 0 °C, a blast chiller at −5 °C;
//   - how: in trays 5 cm deep, thin food in one pot as deep as it is wide;
//   - from: 90 °C, off the boil.
//
// ok is false, and Why says the reason, where there is no basis (no class of food,
// neither mass nor depth) and where the food does not reach toC: nothing reaches 5 °C
// on a bench.
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

// VesselOf returns what a card says about its cooling step: the title says what food
// it is and whether it is thin, the step's equipment and words say where, the batch
// says how much. raw is the class of the raw food in it, for a title that names none.
// Class is NotKnown where nothing says what food it is.
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

// PouredInto returns v shared out into n vessels of the lengths of w, which hold so many
// litres each. How deep it stands there follows from its mass and the floor; of a vessel
// whose floor is not known, a pot as deep as it is wide is taken. Where the mass is not
// known, it is as deep as w says.
func (v Vessel) PouredInto(w Vessel, litres float64, n int) Vessel {
	v.Kg /= float64(max(1, n))
	v.DepthM, v.AcrossM, v.LengthM, v.WidthM = 0, w.AcrossM, w.LengthM, w.WidthM
	if v.AcrossM == 0 && v.LengthM == 0 {
		v.AcrossM = math.Cbrt(4 * litres / 1000 / math.Pi)
	}
	if v.Kg == 0 {
		v.DepthM = w.DepthM
	}
	return v
}

// ThinName reports whether a name is that of a liquid that circulates by itself as it
// cools. A name does not show what thickens a liquid, so soups and sauces are not
// thin unless the cook says so.
func ThinName(name string) bool {
	t := tokens(name)
	return hasAny(t, "stock, broth, consomme, whey, milk, juice, liquor, brine, syrup, cordial, tea, infusion, clear soup") &&
		!hasAny(t, "soup, puree, jelly, braised, poached, glazed, reduced, thick")
}

// PlaceOf returns the place of a cooling step by its equipment and words, as [In] names
// it, or "" where none is named.
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
