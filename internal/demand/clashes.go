package demand

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
)

// A Clash is a plate that goes to guests who exclude something in it.
type Clash struct {
	Group  int      // 1 + index in Menu.Guests
	Course int      // 1 + index in Menu.Courses
	Plate  string   // the plate's name
	Via    []string // titles from the plate down, then the item
	Sure   bool     // false: an item nobody has assessed
}

// Clashes follows every plate that a group of guests gets down to its last
// item and tells where what they exclude comes in. An item that is not in the
// food table is told too, as not sure: not assessed is not the same as without.
// A plate without a clash has been checked against the table, and no more.
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
					c.Group, c.Course, c.Plate = g, i+1, plate.Name
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
	on      map[string]bool // cards under way, against loops
	out     []Clash
}

// card looks through one card. Without are the allergens that authors above it
// have answered for.
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

func (w *clashWalk) tell(via []string, item string, sure bool) {
	c := Clash{Via: append(slices.Clone(via), item), Sure: sure}
	for _, told := range w.out {
		if told.Sure == sure && slices.Equal(told.Via, c.Via) {
			return
		}
	}
	w.out = append(w.out, c)
}

// codes are the allergens of the two lists under the words people have for them.
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

// means says whether an allergen's code is what a guest excludes.
func means(code, exclude string) bool {
	a, b := codes[code], codes[exclude]
	if b == "shellfish" {
		return a == "crustaceans" || a == "molluscs" || a == "shellfish"
	}
	return a != "" && a == b || code == exclude
}

func isAllergen(word string) bool { return codes[word] != "" }
