package demand

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/menu"
)

// A Clash is a plate that has something its guests must avoid.
type Clash struct {
	Word   string   // of the guests' words: "tree nuts"
	Group  int      // 1 + index in Menu.Guests
	Course int      // 1 + index in Menu.Courses
	Line   int      // 1 + index in the course's plates; 0 for a line of the menu that could not be read
	Plate  string   // the plate's name
	Via    []string // titles from the plate down, then the item
	Sure   bool     // it has it; false: it may have it, or nobody has assessed the item
	May    bool     // it may have it
	// NotChecked is set for guests' words that are not understood, or not wholly: Word then says
	// what was not checked. It is set for lines of a course that could not be read, too.
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
	seats := serve(in, d.Covers)
	words := unchecked(in.Menu)
	for i, course := range in.Menu.Courses {
		for _, line := range course.Unread {
			for g := range in.Menu.Guests {
				out = append(out, Clash{Word: line, Group: g + 1, Course: i + 1, Plate: line, Via: []string{line}, NotChecked: true})
			}
		}
		for j, plate := range course.Served() {
			for _, g := range seats.groups[i][j] {
				if g == 0 {
					continue
				}
				out = append(out, clashesOn(in, plate, words[g-1], Clash{Group: g, Course: i + 1, Line: j + 1})...)
			}
		}
	}
	return out
}

// unchecked returns, by group of guests, what of their words is not checked.
func unchecked(m *menu.Menu) [][]menu.NotChecked {
	var out [][]menu.NotChecked
	for _, g := range m.Guests {
		out = append(out, g.Unchecked(m.Foods))
	}
	return out
}

// clashesOn returns the clashes of a group of guests with a plate. Words are its [unchecked]; at
// says the group and where the plate is.
func clashesOn(in Input, plate menu.Plate, words []menu.NotChecked, at Clash) []Clash {
	guests := in.Menu.Guests[at.Group-1]
	w := clashWalk{in: in, avoid: avoided(in.foods(), guests.Exclude), on: map[string]bool{}}
	for _, n := range words {
		w.out = append(w.out, Clash{Word: n.Word, NotChecked: true, DidYouMean: n.DidYouMean, Via: []string{plate.Name}})
	}
	w.card(plate.Card, "", nil, nil)
	for i := range w.out {
		c := &w.out[i]
		c.Group, c.Course, c.Line, c.Plate = at.Group, at.Course, at.Line, plate.Name
	}
	return w.out
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
	if c == nil {
		for _, a := range w.avoid {
			w.judge(via, a, larder.Verdict{Unknown: true}, id)
		}
		return
	}
	if w.on[id] {
		return
	}
	w.on[id] = true
	defer delete(w.on, id)
	via = append(slices.Clone(via), c.Title)
	without = append(slices.Clone(without), c.Without...)
	for _, d := range c.Contains {
		for _, a := range w.avoid {
			w.judge(via, a, a.OfDeclared(d, c.Foods), "as its author says: "+d.String())
		}
	}
	if c.TopUp != "" {
		for _, a := range w.left(without) {
			v := a.Of(c.TopUp, c.Foods)
			w.judge(via, a, larder.Verdict{May: v.Sure || v.May, Unknown: v.Unknown}, toppedUp(c))
		}
	}
	in := inPot(c, save)
	for i, it := range c.Items {
		if w.in.Off(c, i) || in != nil && !in[i+1] {
			continue
		}
		if it.Card != "" {
			w.card(it.Card, it.Save, via, without)
		} else {
			w.item(c, it, via, without)
		}
		w.asides(c, it, via, without)
	}
}

// left returns what the guests avoid that no author above declares absent.
func (w *clashWalk) left(without []string) []larder.Avoid {
	var out []larder.Avoid
	for _, a := range w.avoid {
		if !slices.ContainsFunc(without, func(word string) bool { return declared(w.in.foods(), word).Covers(a) }) {
			out = append(out, a)
		}
	}
	return out
}

func (w *clashWalk) item(c *card.Card, it card.Item, via, without []string) {
	for _, a := range w.left(without) {
		v := a.Of(it.Name, c.Foods)
		if it.Mix { // the cook chooses at the stove
			v = larder.Verdict{Unknown: true}
		}
		w.judge(via, a, v, it.Name)
	}
}

// asides checks what the line of an item says beside the item's name. What a bought item
// clashes with by its name is not told again: "milk, whole" is one clash.
func (w *clashWalk) asides(c *card.Card, it card.Item, via, without []string) {
	for _, d := range c.Foods.Asides(it.Name, it.Prep) {
		for _, a := range w.left(without) {
			if it.Card == "" && !it.Mix && a.Of(it.Name, c.Foods).Sure {
				continue
			}
			w.judge(via, a, a.OfDeclared(d, c.Foods), saidOf(it, d))
		}
	}
}

// saidOf returns an item with the words of its line that say what else is in it.
func saidOf(it card.Item, d larder.Declared) string {
	name, _, _ := strings.Cut(it.Name, "(")
	return strings.TrimSpace(name) + ", " + strconv.Quote(d.Says)
}

// toppedUp returns what a card may be topped up with, as a clash names it.
func toppedUp(c *card.Card) string { return c.TopUp + ", to top up" }

// judge tells the clash that a verdict is.
func (w *clashWalk) judge(via []string, a larder.Avoid, v larder.Verdict, item string) {
	switch {
	case v.Sure:
		w.tell(via, Clash{Word: a.Words, Sure: true}, item)
	case v.May:
		w.tell(via, Clash{Word: a.Words, May: true}, item+" (may contain it: read the label)")
	case v.Unknown:
		w.tell(via, Clash{Word: a.Words}, item+" (not assessed)")
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

// avoided returns what the words of a group of guests mean, by a kitchen's own foods (nil
// for none). For words that are not understood no item is assessed.
func avoided(foods *larder.Foods, exclude []string) []larder.Avoid {
	var out []larder.Avoid
	for _, word := range exclude {
		a, ok := foods.Understand(word)
		if !ok {
			a = larder.NotUnderstood(word)
		}
		out = append(out, a)
	}
	return out
}

// foods returns the kitchen's own foods by which the menu is read, nil for none.
func (in Input) foods() *larder.Foods {
	if in.Menu == nil {
		return nil
	}
	return in.Menu.Foods
}

// declared returns what a word of a card's "without" means.
func declared(foods *larder.Foods, word string) larder.Avoid {
	a, _ := foods.Understand(word)
	return a
}
