package demand

import (
	"slices"
	"strings"

	"hobside/internal/larder"
)

// AllergensOf rolls the allergens of one component up as [Allergens] does for a
// plate: for the label on its tub. Course and Plate are 0, and the ways down
// leave out the component's own title.
func AllergensOf(in Input, id string) PlateSheet {
	w := sheetWalk{in: in, on: map[string]bool{}}
	w.card(id, nil, nil)
	w.sheet.sort()
	return w.sheet
}

// Excluded lists which of the words that guests exclude an item is known to be,
// to carry, or usually to carry, in the order given.
func Excluded(item string, exclude []string) []string {
	var out []string
	a, _ := larder.Assess(item)
	for _, ex := range exclude {
		hit := !isAllergen(ex) && strings.Contains(" "+strings.ToLower(item)+" ", " "+ex+" ") ||
			a.Certainty != larder.May && slices.ContainsFunc(slices.Concat(a.EU, a.US), func(code string) bool { return means(code, ex) })
		if hit && !slices.Contains(out, ex) {
			out = append(out, ex)
		}
	}
	return out
}
