package demand

import (
	"slices"
	"sort"

	"hobside/internal/card"
	"hobside/internal/larder"
)

// A PlateSheet is what is known of one plate's allergens, through every component
// down to the items. An allergen that is missing was not found, which does not
// mean that it is absent.
type PlateSheet struct {
	Course      int // 1 + index in Menu.Courses
	Plate       int // 1 + index in Course.Plates
	Carried     []Carried
	NotAssessed [][]string // titles from the plate down, then the item that is not assessed
	Without     []string   // what authors declare absent: "gluten, in Oat biscuits"
}

// Carried is one allergen on a plate.
type Carried struct {
	List      larder.List
	Code      string
	Certainty larder.Certainty // the highest of all items that carry it
	Via       [][]string       // titles from the plate down, then the item; the most certain first
}

// Allergens returns the allergens of every plate, by the EU's and the US's list. A
// card may add ("contains") and remove ("without"). A free mix and an item that the
// food table does not know are listed as not assessed on every plate they reach.
func Allergens(in Input) []PlateSheet {
	if in.Menu == nil {
		return nil
	}
	var out []PlateSheet
	for i, course := range in.Menu.Courses {
		for j, plate := range course.Served() {
			w := sheetWalk{in: in, sheet: PlateSheet{Course: i + 1, Plate: j + 1}, on: map[string]bool{}}
			w.card(plate.Card, "", nil, nil)
			w.sheet.sort()
			out = append(out, w.sheet)
		}
	}
	return out
}

// sort puts the allergens in the order of the official lists.
func (s *PlateSheet) sort() {
	sort.SliceStable(s.Carried, func(i, j int) bool { return listed(s.Carried[i]) < listed(s.Carried[j]) })
}

// listed returns an allergen's position in the official lists.
func listed(c Carried) int {
	return slices.IndexFunc(larder.Categories, func(k larder.Category) bool { return k.List == c.List && k.Code == c.Code })
}

type sheetWalk struct {
	in    Input
	sheet PlateSheet
	on    map[string]bool // cards on the path, against loops
}

func (w *sheetWalk) card(id, save string, via, without []string) {
	c := w.in.Cards[id]
	if c == nil {
		w.unknown(append(slices.Clone(via), id))
		return
	}
	if w.on[id] {
		return
	}
	w.on[id] = true
	defer delete(w.on, id)
	via = append(slices.Clone(via), c.Title)
	for _, word := range c.Without {
		if line := word + ", in " + c.Title; !slices.Contains(w.sheet.Without, line) {
			w.sheet.Without = append(w.sheet.Without, line)
		}
	}
	without = append(slices.Clone(without), c.Without...)
	for _, d := range c.Contains {
		from := append(slices.Clone(via), "as its author says")
		if !d.Known() {
			w.unknown(append(slices.Clone(via), d.String()+", as its author says"))
		}
		for _, carry := range d.Carries(c.Foods) {
			w.carry(carry.List, carry.Code, carry.Certainty, from)
		}
	}
	if c.TopUp != "" {
		w.topUp(c, via, without)
	}
	in := inPot(c, save)
	for i, it := range c.Items {
		switch {
		case w.in.Off(c, i), in != nil && !in[i+1]:
		case it.Card != "":
			w.card(it.Card, it.Save, via, without)
			w.asides(c, it, via, without)
		default:
			w.item(c, it, via, without)
			w.asides(c, it, via, without)
		}
	}
}

// asides adds what the line of an item says beside the item's name.
func (w *sheetWalk) asides(c *card.Card, it card.Item, via, without []string) {
	for _, d := range c.Foods.Asides(it.Name, it.Prep) {
		from := append(slices.Clone(via), saidOf(it, d))
		if !d.Known() {
			w.unknown(from)
		}
		w.carries(d.Carries(c.Foods), from, without)
	}
}

// topUp adds what a batch that gave too little may be topped up with: it may be there.
func (w *sheetWalk) topUp(c *card.Card, via, without []string) {
	via = append(slices.Clone(via), toppedUp(c))
	a, known := c.Foods.Assess(c.TopUp)
	switch {
	case !known:
		w.unknown(via)
	case a.Open:
		w.unknown(openTo(via))
	}
	for i := range a.Carries {
		a.Carries[i].Certainty = larder.May
	}
	w.carries(a.Carries, via, without)
}

func (w *sheetWalk) item(c *card.Card, it card.Item, via, without []string) {
	via = append(slices.Clone(via), it.Name)
	a, known := c.Foods.Assess(it.Name)
	if !known || it.Mix {
		w.unknown(via)
		return
	}
	if a.Open {
		w.unknown(openTo(via))
	}
	w.carries(a.Carries, via, without)
}

// openTo returns the way to an item of which only a part is assessed, with the question that
// its label answers: "curry powder: what is in it?".
func openTo(via []string) []string {
	return append(slices.Clone(via[:len(via)-1]), via[len(via)-1]+": what is in it?")
}

// carries adds the allergens that no author above takes back.
func (w *sheetWalk) carries(carries []larder.Carry, via, without []string) {
	for _, c := range carries {
		if !slices.ContainsFunc(without, func(word string) bool { return declared(w.in.foods(), word).Code(c.List, c.Code) }) {
			w.carry(c.List, c.Code, c.Certainty, via)
		}
	}
}

func (w *sheetWalk) carry(list larder.List, code string, certainty larder.Certainty, via []string) {
	rank := slices.Index(larder.Certainties, certainty)
	for i := range w.sheet.Carried {
		c := &w.sheet.Carried[i]
		if c.List != list || c.Code != code {
			continue
		}
		if slices.ContainsFunc(c.Via, func(v []string) bool { return slices.Equal(v, via) }) {
			return
		}
		if rank < slices.Index(larder.Certainties, c.Certainty) {
			c.Certainty = certainty
			c.Via = slices.Insert(c.Via, 0, via)
		} else {
			c.Via = append(c.Via, via)
		}
		return
	}
	w.sheet.Carried = append(w.sheet.Carried, Carried{List: list, Code: code, Certainty: certainty, Via: [][]string{via}})
}

func (w *sheetWalk) unknown(via []string) {
	if !slices.ContainsFunc(w.sheet.NotAssessed, func(v []string) bool { return slices.Equal(v, via) }) {
		w.sheet.NotAssessed = append(w.sheet.NotAssessed, via)
	}
}
