package engine

import (
	"slices"
	"strings"

	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/larder"
)

// sheet writes down what is known of every plate's allergens.
func sheet(w *dinner.Worked) []SheetView {
	out := []SheetView{}
	for _, s := range demand.Allergens(w.Input) {
		course := w.Menu.Courses[s.Course-1]
		plate := course.Plates[s.Plate-1]
		v := SheetView{Course: course.Name, Plate: plate.Name, For: slices.Clone(plate.For), Covers: w.Served(s.Course, s.Plate),
			EU: []AllergenView{}, US: []AllergenView{}, NotAssessed: []string{}, Without: slices.Clone(s.Without)}
		if v.For == nil {
			v.For = []string{}
		}
		if v.Without == nil {
			v.Without = []string{}
		}
		for _, c := range s.Carried {
			a := AllergenView{Code: c.Code, Name: larder.OfficialName(c.List, c.Code), Certainty: string(c.Certainty), Via: []string{}}
			for _, via := range c.Via {
				a.Via = append(a.Via, below(via))
			}
			if c.List == larder.EU {
				v.EU = append(v.EU, a)
			} else {
				v.US = append(v.US, a)
			}
		}
		for _, via := range s.NotAssessed {
			v.NotAssessed = append(v.NotAssessed, below(via))
		}
		out = append(out, v)
	}
	return out
}

// below writes a way from a plate down to an item, without the plate's own name.
func below(via []string) string {
	if len(via) > 1 {
		via = via[1:]
	}
	return strings.Join(via, " › ")
}
