package demand

import (
	"slices"

	"hobside/internal/larder"
)

// AllergensOf returns the allergens of one component, for its label, as
// [Allergens] does for a plate. Course and Plate are 0, and Via begins below the
// component.
func AllergensOf(in Input, id string) PlateSheet {
	w := sheetWalk{in: in, on: map[string]bool{}}
	w.card(id, "", nil, nil)
	w.sheet.sort()
	return w.sheet
}

// Excluded returns those of the excluded words that an item is, always carries or
// usually carries, in the order given. Foods are a kitchen's own, nil for none.
func Excluded(foods *larder.Foods, item string, exclude []string) []string {
	var out []string
	for _, ex := range exclude {
		if a, ok := foods.Understand(ex); ok && a.Of(item, foods).Sure && !slices.Contains(out, ex) {
			out = append(out, ex)
		}
	}
	return out
}
