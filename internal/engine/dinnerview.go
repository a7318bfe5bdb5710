package engine

import (
	"slices"
	"strconv"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// serve writes the dinner down as the phone shows it.
func (e *Engine) serve(f *followed, in demand.Input, problems []document.Problem) *DinnerView {
	d := &DinnerView{Dinner: f.id, Title: f.state.Name, Covers: f.demand.Covers, Serve: f.state.Serve,
		Courses: []Course{}, Cards: []CardView{}, Guests: []GuestView{}, Sheet: []SheetView{}, Problems: problems}
	if d.Problems == nil {
		d.Problems = []document.Problem{}
	}
	if k := f.docs[f.state.Open.Kitchen]; k != nil && k.Kitchen != nil {
		d.Kitchen = k.Kitchen.Title
	}
	if in.Menu == nil {
		return d
	}
	if d.Title == "" {
		d.Title = in.Menu.Title
	}
	d.Intro = in.Menu.Intro
	served := servedCovers(f.demand)
	for i, c := range in.Menu.Courses {
		v := Course{Name: c.Name, At: later(d.Serve, c.After), Plates: []PlateView{}}
		for j, p := range c.Plates {
			pv := PlateView{Card: p.Card, Name: p.Name, For: p.For, Covers: served[[2]int{i + 1, j + 1}]}
			pv.Build = e.onOne(f.demand.ByCard[p.Card])
			if pv.For == nil {
				pv.For = []string{}
			}
			if p.Amount.Unit != nil {
				pv.Each = e.amount(p.Amount)
			}
			v.Plates = append(v.Plates, pv)
		}
		d.Courses = append(d.Courses, v)
	}
	// Components come users first; a cook makes what is used first.
	for _, comp := range slices.Backward(f.demand.Components) {
		d.Cards = append(d.Cards, e.cardView(f, in, comp))
	}
	d.Guests = guests(in, f.demand)
	d.Sheet = sheet(in, served)
	return d
}

// onOne is what goes on one plate: the plate's share of all that is made of it,
// smaller portions and left out items counted.
func (e *Engine) onOne(comp *demand.Component) []UseView {
	out := []UseView{}
	if comp == nil || !comp.Card.IsPlate() || len(comp.Batches) == 0 {
		return out
	}
	m := comp.Batches[0]
	if m.Amount.Sign() <= 0 {
		return out
	}
	for i, it := range comp.Card.Items {
		if m.Items[i].Unit == nil {
			continue // left out, or to taste
		}
		text, aside := e.item(it, m.Items[i].Scale(quantity.Int(1).Quo(m.Amount)))
		out = append(out, UseView{Amount: text, Aside: aside, Name: it.Name, Prep: it.Prep, Card: it.Card})
	}
	return out
}

func servedCovers(d *demand.Demand) map[[2]int]int {
	served := map[[2]int]int{}
	for _, comp := range d.Components {
		for _, u := range comp.Uses {
			if u.Course > 0 {
				served[[2]int{u.Course, u.Plate}] = u.Covers
			}
		}
	}
	return served
}

func (e *Engine) cardView(f *followed, in demand.Input, comp *demand.Component) CardView {
	c := comp.Card
	v := CardView{ID: c.ID, Title: c.Title, Intro: c.Intro, Plate: c.IsPlate(), Makes: e.amount(c.Makes),
		Courses: coursesOf(in.Menu, f.demand, c.ID), Keeps: keeps(c.Keeps), Ways: []string{}, GoesInto: []string{}, Saves: []string{}, Batches: []BatchView{}}
	for _, w := range c.Ways {
		v.Ways = append(v.Ways, w.Name)
	}
	if len(c.Ways) > 0 {
		v.Way = way(in.Ways, c)
	}
	for _, u := range comp.Uses {
		v.GoesInto = append(v.GoesInto, e.feed(in, comp, u))
	}
	for _, s := range comp.Saves {
		v.Saves = append(v.Saves, byProductName(c, s.Slug)+", "+e.amount(quantity.Amount{Qty: s.Have, Unit: s.Unit}))
	}
	v.Means = e.means(f, in, comp)
	left := f.state.Leave
	cautions := e.cautionsOf(f.docs[c.File], v.Way, avoided(in.Menu))
	for i := range comp.Batches {
		v.Batches = append(v.Batches, e.batch(comp, i, v.Way, left, cautions))
	}
	return v
}

// way is the way chosen for a card: 1 + index, the first when nobody chose.
func way(ways map[string]int, c *card.Card) int {
	if w := ways[c.ID]; w >= 1 && w <= len(c.Ways) {
		return w
	}
	return 1
}

func (e *Engine) feed(in demand.Input, comp *demand.Component, u demand.Use) string {
	return e.goesTo(in, u) + ": " + e.amount(quantity.Amount{Qty: u.Amount, Unit: comp.Unit})
}

// coursesOf names the courses a card ends up in, in serving order.
func coursesOf(m *menu.Menu, d *demand.Demand, id string) []string {
	in := map[int]bool{}
	seen := map[string]bool{}
	var visit func(id string)
	visit = func(id string) {
		if seen[id] || d.ByCard[id] == nil {
			return
		}
		seen[id] = true
		comp := d.ByCard[id]
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
	visit(id)
	names := []string{}
	for i, c := range m.Courses {
		if in[i+1] {
			names = append(names, c.Name)
		}
	}
	return names
}

func keeps(ks []card.Keep) []string {
	out := []string{}
	for _, k := range ks {
		out = append(out, k.String())
	}
	return out
}

func byProductName(c *card.Card, slug string) string {
	for _, s := range c.Saves {
		if s.Slug == slug {
			return s.Name
		}
	}
	return slug
}

func guests(in demand.Input, d *demand.Demand) []GuestView {
	out := []GuestView{}
	clashes := demand.Clashes(in, d)
	for i, g := range in.Menu.Guests {
		v := GuestView{Covers: g.Covers, Exclude: g.Exclude, Note: g.Note, Clashes: []Clash{}}
		for _, c := range clashes {
			if c.Group != i+1 {
				continue
			}
			v.Clashes = append(v.Clashes, Clash{Course: in.Menu.Courses[c.Course-1].Name, Plate: c.Plate, Via: c.Via, Sure: c.Sure})
		}
		out = append(out, v)
	}
	return out
}

// later is a wall-clock time so many minutes on.
func later(at string, minutes int) string {
	w, wrong := menu.ParseWhen(at)
	if wrong != "" {
		return at
	}
	return w.Later(minutes).String()
}

func itoa(n int) string { return strconv.Itoa(n) }
