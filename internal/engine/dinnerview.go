package engine

import (
	"cmp"
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// dinnerView returns a dinner as the phone shows it. It is the largest answer,
// so it is made only when amounts have changed. While the menu's text is missing
// it has the problems and no course.
func (e *Engine) dinnerView(f *followed) *DinnerView {
	w, s := f.Worked(), f.State()
	d := &DinnerView{Dinner: f.ID, Title: s.Name, Covers: w.Demand.Covers, Serve: s.Serve,
		Courses: []Course{}, Cards: []CardView{}, Problems: append([]document.Problem{}, w.Problems...)}
	if s.Open != nil {
		d.Zone = s.Open.Zone
	}
	if w.Kitchen != nil {
		d.Kitchen = w.Kitchen.Title
		d.Zone = cmp.Or(w.Kitchen.Zone, d.Zone)
	}
	if w.Menu == nil {
		return d
	}
	if d.Title == "" {
		d.Title = w.Menu.Title
	}
	d.Intro = w.Menu.Intro
	shop := f.Shop()
	bill := demand.BillOf(w.Input, w.Demand, shop)
	d.Cost = costView(bill.Used, bill.Cover(), "cover", shop)
	spared := map[string]bool{}
	for i, c := range w.Menu.Courses {
		v := Course{Name: c.Name, At: later(d.Serve, c.After), Plates: []PlateView{}}
		for j, p := range c.Plates {
			pv := PlateView{Card: p.Card, Name: p.Name, For: larder.ForGuests(p.For), Covers: w.Served(i+1, j+1), Build: e.onOnePlate(w, p.Card),
				Service: []FactView{}, Keys: []string{}, Clashes: w.PlateClashes(i+1, j+1)}
			for cover := range min(pv.Covers, menu.MaxCovers) { // an event may say any number
				pv.Keys = append(pv.Keys, dinner.PlateKey(i+1, j+1, cover+1))
			}
			if comp := w.Demand.ByCard[p.Card]; comp != nil {
				pv.Service = each(comp.Card.Scale(quantity.Int(1), 0, e.show).Service(), factView)
				pic := comp.Card.Service.Picture
				pv.Picture = PictureView{pic.Source, pic.Words}
			}
			pv.Cost = costView(bill.Plate(i+1, j+1), demand.Spent{}, "", shop)
			if comp := w.Demand.ByCard[p.Card]; comp != nil && comp.Spare.Sign() > 0 && !spared[p.Card] {
				spared[p.Card] = true // shown once, where two courses have one plate
				pv.Spare = e.amount(quantity.Amount{Qty: comp.Spare, Unit: comp.Unit})
			}
			if p.Amount.Unit != nil {
				pv.Each = e.amount(p.Amount)
			}
			v.Plates = append(v.Plates, pv)
		}
		d.Courses = append(d.Courses, v)
	}
	// Components come users first; a cook makes what is used first.
	for _, comp := range slices.Backward(w.Demand.Components) {
		d.Cards = append(d.Cards, e.cardView(f, comp, bill, shop))
	}
	d.Guests = w.ExclusionGroups()
	d.Sheet = w.Sheet()
	return d
}

// onOnePlate returns what goes on one plate of a card that makes plates, and an
// empty list for any other card. Items that are left out or to taste have no
// amount and are not listed.
func (e *Engine) onOnePlate(w *dinner.Worked, id string) []UseView {
	out := []UseView{}
	for i, a := range w.PerPlate(id) {
		if a.Unit == nil {
			continue // left out, or to taste
		}
		c := w.Demand.ByCard[id].Card
		it := &c.Items[i]
		text, aside := e.item(c, it, a)
		out = append(out, UseView{Amount: text, Aside: aside, Name: it.Name, Prep: it.Prep, Card: it.Card})
	}
	return out
}

// cardView returns one card of a dinner with its batches, where its result goes,
// and what follows when a batch gave less or more than planned.
func (e *Engine) cardView(f *followed, comp *demand.Component, bill *demand.Bill, shop demand.Shop) CardView {
	c, w := comp.Card, f.Worked()
	v := CardView{ID: c.ID, Title: c.Title, Intro: c.Intro, Plate: c.IsPlate(), Makes: e.amount(c.Makes),
		Courses: w.CoursesOf(c.ID), Keeps: keeps(c.Keeps), Ways: []string{}, GoesInto: []string{}, Saves: []string{}, Batches: []BatchView{}}
	for _, way := range c.Ways {
		v.Ways = append(v.Ways, way.Name)
	}
	v.Way = w.Way(c)
	for _, u := range comp.Uses {
		v.GoesInto = append(v.GoesInto, w.GoesTo(u)+": "+e.amount(quantity.Amount{Qty: u.Amount, Unit: comp.Unit}))
	}
	if comp.Spare.Sign() > 0 {
		v.GoesInto = append(v.GoesInto, "spare: "+e.amount(quantity.Amount{Qty: comp.Spare, Unit: comp.Unit}))
	}
	for _, s := range comp.Saves {
		v.Saves = append(v.Saves, byProductName(c, s.Slug)+", "+e.amount(quantity.Amount{Qty: s.Have, Unit: s.Unit}))
	}
	v.Means = f.Means(comp, e.show)
	cautions := e.cautionsOf(c, v.Way, w.Avoided())
	for i := range comp.Batches {
		b := e.batch(comp, i, v.Way, &w.Input, cautions)
		b.Cost = costView(bill.Batch(comp, comp.Batches[i]), demand.Spent{}, "", shop)
		v.Batches = append(v.Batches, b)
	}
	return v
}

// keeps returns the holds of a card in words: "4 d chilled".
func keeps(ks []card.Keep) []string {
	out := []string{}
	for _, k := range ks {
		out = append(out, k.String())
	}
	return out
}

// byProductName returns the name that a card has for a by-product, or its slug when
// the card has no such by-product.
func byProductName(c *card.Card, slug string) string {
	for _, s := range c.Saves {
		if s.Slug == slug {
			return s.Name
		}
	}
	return slug
}

// later returns the wall-clock time so many minutes after at, in the form of at.
// A time that can't be read comes back as it is.
func later(at string, minutes int) string {
	w, wrong := document.ParseWhen(at)
	if wrong != "" {
		return at
	}
	return w.Add(minutes).String()
}
