package dinner

import (
	"slices"
	"strings"

	"hobside/internal/demand"
	"hobside/internal/quantity"
)

// Served returns how many covers get a plate of the menu. Course and plate count
// from 1.
func (w *Worked) Served(course, plate int) int {
	for _, comp := range w.Demand.Components {
		for _, u := range comp.Uses {
			if u.Course == course && u.Plate == plate {
				return u.Covers
			}
		}
	}
	return 0
}

// PerPlate returns how much of each item goes on one plate of a card that makes
// plates, in the order of its formula: the plate's share of all that is made of
// it, smaller portions and left out items counted. The amount is zero for an item
// that is left out or to taste. It returns nil for a card that makes no plates.
func (w *Worked) PerPlate(card string) []quantity.Amount {
	comp := w.Demand.ByCard[card]
	if comp == nil || !comp.Card.IsPlate() || len(comp.Batches) == 0 || comp.Batches[0].Amount.Sign() <= 0 {
		return nil
	}
	m := comp.Batches[0]
	share := quantity.Int(1).Quo(m.Amount)
	out := make([]quantity.Amount, len(m.Items))
	for i, a := range m.Items {
		if a.Unit != nil {
			out[i] = a.Scale(share)
		}
	}
	return out
}

// CoursesOf returns the names of the courses that a card ends up in, in serving
// order.
func (w *Worked) CoursesOf(card string) []string {
	in := map[int]bool{}
	seen := map[string]bool{}
	var visit func(id string)
	visit = func(id string) {
		comp := w.Demand.ByCard[id]
		if seen[id] || comp == nil {
			return
		}
		seen[id] = true
		uses := slices.Clone(comp.Uses)
		for _, s := range comp.Saves {
			uses = append(uses, s.Uses...)
		}
		for _, u := range uses {
			if u.Course > 0 {
				in[u.Course] = true
			}
			if u.By != "" {
				visit(u.By)
			}
		}
	}
	visit(card)
	names := []string{}
	for i, c := range w.Menu.Courses {
		if in[i+1] {
			names = append(names, c.Name)
		}
	}
	return names
}

// GoesTo returns the name of where a use goes: a card's title, or a course.
func (w *Worked) GoesTo(u demand.Use) string {
	if user := w.Input.Cards[u.By]; user != nil {
		return user.Title
	}
	if u.Course > 0 && u.Course <= len(w.Menu.Courses) {
		return w.Menu.Courses[u.Course-1].Name
	}
	return "the table"
}

// Title returns the title of a card of the dinner, or its ID where it has none.
func (w *Worked) Title(card string) string {
	if comp := w.Demand.ByCard[card]; comp != nil && comp.Card.Title != "" {
		return comp.Card.Title
	}
	return card
}

// Avoided returns what guests of the dinner exclude, each word once.
func (w *Worked) Avoided() []string {
	if w.Menu == nil {
		return nil
	}
	var out []string
	for _, g := range w.Menu.Guests {
		for _, word := range g.Exclude {
			if !slices.Contains(out, word) {
				out = append(out, word)
			}
		}
	}
	return out
}

// Shop returns what is known outside the cards: the kitchen's foods and prices, and what
// the cooks said is in the house.
func (l *Live) Shop() demand.Shop {
	s := demand.Shop{Have: map[string]quantity.Amount{}}
	for key, a := range l.state.Have {
		if slug, ok := strings.CutPrefix(key, "order/"); ok {
			s.Have[slug] = a
		}
	}
	if l.worked != nil {
		s.Prices, s.Foods = l.worked.Files.Prices(l.worked.Kitchen), l.worked.Foods
	}
	return s
}
