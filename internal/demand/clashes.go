package demand

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/larder"
)

// A Clash is a plate that has something its guests must avoid.
type Clash struct {
	Word   string   // of the guests' words: "tree nuts"
	Group  int      // 1 + index in Menu.Guests
	Course int      // 1 + index in Menu.Courses
	Line   int      // 1 + index in the course's plates
	Plate  string   // the plate's name
	Via    []string // titles from the plate down, then the item
	Sure   bool     // it has it; false: it may have it, or nobody has assessed the item
	May    bool     // it may have it
	// NotChecked is set for guests' words that are not understood: nothing was checked.
	NotChecked bool
	DidYouMean string // the nearest words that are understood, "" for none
}

// Clashes returns where the plates of a group of guests hold what the group must
// avoid, through every component down to the items. An item that is not in the
// food table is reported as not sure. Words of guests that are not understood are
// reported on every plate that these guests get. A plate without a clash was checked against
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
				w := clashWalk{in: in, avoid: avoided(in.Menu.Guests[g-1].Exclude), on: map[string]bool{}}
				for _, word := range in.Menu.Guests[g-1].NotChecked {
					w.out = append(w.out, Clash{Word: word, NotChecked: true, DidYouMean: larder.Suggest(word), Via: []string{plate.Name}})
				}
				w.card(plate.Card, "", nil, nil)
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
	in    Input
	avoid []larder.Avoid
	on    map[string]bool // cards on the path, against loops
	out   []Clash
}

// card checks one card, or what is in its by-product where save names one. Without holds the allergens that the authors of the cards
// above declare absent.
func (w *clashWalk) card(id, save string, via, without []string) {
	c := w.in.Cards[id]
	if c == nil || w.on[id] {
		return
	}
	w.on[id] = true
	defer delete(w.on, id)
	via = append(slices.Clone(via), c.Title)
	without = append(slices.Clone(without), c.Without...)
	for _, word := range c.Contains {
		said, _ := larder.Understand(word)
		for _, a := range w.avoid {
			if a.Meets(said) {
				w.tell(via, Clash{Word: a.Words, Sure: true}, "as its author says: "+word)
			}
		}
	}
	in := inPot(c, save)
	for i, it := range c.Items {
		if it.Optional && w.in.Leave[c.ID][i+1] || in != nil && !in[i+1] {
			continue
		}
		if it.Card != "" {
			w.card(it.Card, it.Save, via, without)
			continue
		}
		w.item(c, it, via, without)
	}
}

func (w *clashWalk) item(c *card.Card, it card.Item, via, without []string) {
	for _, a := range w.avoid {
		if slices.ContainsFunc(without, func(word string) bool { return declared(word).Covers(a) }) {
			continue
		}
		v := a.Of(it.Name, c.Foods)
		switch {
		case it.Mix: // the cook chooses at the stove
			w.tell(via, Clash{Word: a.Words}, it.Name+" (not assessed)")
		case v.Sure:
			w.tell(via, Clash{Word: a.Words, Sure: true}, it.Name)
		case v.May:
			w.tell(via, Clash{Word: a.Words, May: true}, it.Name+" (may contain it: read the label)")
		case v.Unknown:
			w.tell(via, Clash{Word: a.Words}, it.Name+" (not assessed)")
		}
	}
}

// tell adds a clash, once for each item.
func (w *clashWalk) tell(via []string, c Clash, item string) {
	c.Via = append(slices.Clone(via), item)
	for _, told := range w.out {
		if told.Sure == c.Sure && slices.Equal(told.Via, c.Via) {
			return
		}
	}
	w.out = append(w.out, c)
}

// avoided returns what the words of a group of guests mean. Words that are not
// understood are an error of the menu, which the screens show.
func avoided(exclude []string) []larder.Avoid {
	var out []larder.Avoid
	for _, word := range exclude {
		if a, ok := larder.Understand(word); ok {
			out = append(out, a)
		}
	}
	return out
}

// declared returns what a word of a card's "without" means.
func declared(word string) larder.Avoid {
	a, _ := larder.Understand(word)
	return a
}
