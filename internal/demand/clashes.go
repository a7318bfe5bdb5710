package demand

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
)

// A Clash is a plate that has something its guests must avoid.
type Clash struct {
	Group  int      // 1 + index in Menu.Guests
	Course int      // 1 + index in Menu.Courses
	Line   int      // 1 + index in the course's plates
	Plate  string   // the plate's name
	Via    []string // titles from the plate down, then the item
	Sure   bool     // false: the item is not assessed, or only may contain it
}

// Clashes returns where the plates of a group of guests hold what the group must
// avoid, through every component down to the items. An item that is not in the
// food table is reported as not sure. A plate without a clash was checked against
// the table and nothing else.
func Clashes(in Input, d *Demand) []Clash {
	if in.Menu == nil {
		return nil
	}
	var out []Clash
	seats := serve(in.Menu, d.Covers)
	for i, course := range in.Menu.Courses {
		for j, plate := range course.Plates {
			for _, g := range seats.groups[i][j] {
				if g == 0 || seats.covers[i][j] == 0 {
					continue
				}
				w := clashWalk{in: in, exclude: in.Menu.Guests[g-1].Exclude, on: map[string]bool{}}
				w.card(plate.Card, nil, nil)
				for _, c := range w.out {
					c.Group, c.Course, c.Line, c.Plate = g, i+1, j+1, plate.Name
					out = append(out, c)
				}
			}
		}
	}
	return out
}

type clashWalk struct {
	in      Input
	exclude []string
	on      map[string]bool // cards on the path, against loops
	out     []Clash
}

// card checks one card. Without holds the allergens that the authors of the cards
// above declare absent.
func (w *clashWalk) card(id string, via, without []string) {
	c := w.in.Cards[id]
	if c == nil || w.on[id] {
		return
	}
	w.on[id] = true
	defer delete(w.on, id)
	via = append(slices.Clone(via), c.Title)
	without = append(slices.Clone(without), c.Without...)
	for _, word := range c.Contains {
		for _, ex := range w.exclude {
			if means(word, ex) {
				w.tell(via, "as its author says: "+word, true)
			}
		}
	}
	for i, it := range c.Items {
		if it.Optional && w.in.Leave[c.ID][i+1] {
			continue
		}
		if it.Card != "" {
			w.card(it.Card, via, without)
			continue
		}
		w.item(it, via, without)
	}
}

func (w *clashWalk) item(it card.Item, via, without []string) {
	a, known := larder.Assess(it.Name)
	for _, ex := range w.exclude {
		switch {
		case slices.ContainsFunc(without, func(word string) bool { return means(word, ex) }):
		case !isAllergen(ex):
			if strings.Contains(" "+strings.ToLower(it.Name)+" ", " "+ex+" ") {
				w.tell(via, it.Name, true)
			}
		case !known || it.Mix:
			w.tell(via, it.Name+" (not assessed)", false)
		case slices.ContainsFunc(slices.Concat(a.EU, a.US), func(code string) bool { return means(code, ex) }):
			if a.Certainty == larder.May {
				w.tell(via, it.Name+" (may contain it: read the label)", false)
			} else {
				w.tell(via, it.Name, true)
			}
		}
	}
}

// tell adds a clash, once.
func (w *clashWalk) tell(via []string, item string, sure bool) {
	c := Clash{Via: append(slices.Clone(via), item), Sure: sure}
	for _, told := range w.out {
		if told.Sure == sure && slices.Equal(told.Via, c.Via) {
			return
		}
	}
	w.out = append(w.out, c)
}

// codes maps everyday words to the allergens of the two official lists.
var codes = map[string]string{
	"gluten": "gluten", "wheat": "gluten", "cereal": "gluten",
	"fish":        "fish",
	"crustaceans": "crustaceans", "crustacean": "crustaceans", "crustacean_shellfish": "crustaceans",
	"molluscs": "molluscs", "mollusc": "molluscs",
	"shellfish": "shellfish",
	"egg":       "egg", "eggs": "egg",
	"milk": "milk", "dairy": "milk", "lactose": "milk",
	"nuts": "nuts", "nut": "nuts", "tree nuts": "nuts", "tree_nuts": "nuts",
	"peanut": "peanuts", "peanuts": "peanuts",
	"soya": "soybeans", "soy": "soybeans", "soybeans": "soybeans",
	"sesame": "sesame", "celery": "celery", "mustard": "mustard", "lupin": "lupin",
	"sulphites": "sulphites", "sulfites": "sulphites",
}

// means reports whether a guest's word excludes an allergen.
func means(code, exclude string) bool {
	a, b := codes[code], codes[exclude]
	if b == "shellfish" {
		return a == "crustaceans" || a == "molluscs" || a == "shellfish"
	}
	return a != "" && a == b || code == exclude
}

func isAllergen(word string) bool { return codes[word] != "" }
