package demand

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// Explode works out how much of every card of a dinner is made, in which batches,
// where it goes, and what is bought. A problem reports amounts whose units can't
// be converted; everything else is worked out all the same.
//
// Links to missing cards and loops of cards are ignored: the check of the library
// reports them.
func Explode(in Input) (*Demand, []document.Problem) {
	e := explosion{in: in, d: &Demand{Covers: in.Covers, ByCard: map[string]*Component{}}, state: map[string]int{}, share: map[string]quantity.Number{}}
	if in.OnExplode != nil {
		in.OnExplode()
	}
	if in.Menu == nil {
		return e.d, nil
	}
	switch {
	case e.d.Covers == 0:
		e.d.Covers = in.Menu.Covers
	case e.d.Covers < 0:
		e.d.Covers = 0
	}
	// Reversed postorder: every card comes after all cards that use it, so its
	// need is known when its turn comes.
	for _, course := range in.Menu.Courses {
		for _, p := range course.Served() {
			e.visit(p.Card)
		}
	}
	slices.Reverse(e.d.Components)
	e.seat()
	for _, comp := range e.d.Components {
		e.make(comp)
		e.pass(comp)
	}
	for _, comp := range e.d.Components {
		e.balance(comp)
	}
	return e.d, e.problems
}

type explosion struct {
	in       Input
	d        *Demand
	state    map[string]int             // of the walk: 0 not visited, 1 on the path, 2 done
	share    map[string]quantity.Number // portion factor by card ID, where it is not 1
	problems []document.Problem
}

// visit lists a card after the cards it uses.
func (e *explosion) visit(id string) {
	c := e.in.Cards[id]
	if c == nil || c.Makes.Unit == nil || c.Makes.Qty.Sign() <= 0 || e.state[id] != 0 {
		return
	}
	e.state[id] = 1
	comp := &Component{Card: c, Unit: c.Makes.Unit}
	for _, s := range c.Saves {
		comp.Saves = append(comp.Saves, Saved{Slug: s.Slug, Unit: s.Amount.Unit})
	}
	e.d.ByCard[id] = comp
	for i := len(c.Items) - 1; i >= 0; i-- {
		if id := c.Items[i].Card; id != "" && !e.left(c, i) {
			e.visit(id)
		}
	}
	e.portion(comp)
	e.state[id] = 2
	e.d.Components = append(e.d.Components, comp)
}

// left reports whether the cook leaves an item out.
func (e *explosion) left(c *card.Card, item int) bool {
	return e.in.Off(c, item)
}

// seat adds the uses by guests.
func (e *explosion) seat() {
	seats := serve(e.in, e.d.Covers)
	for i, course := range e.in.Menu.Courses {
		for j, p := range course.Served() {
			comp := e.d.ByCard[p.Card]
			covers := seats.covers[i][j]
			if comp == nil || covers == 0 {
				continue
			}
			each := p.Amount
			if each.Unit == nil {
				each = comp.Card.Portion
			}
			if each.Unit == nil {
				each = e.oneCover(comp, p)
			}
			n, err := e.inUnit(comp.Card, each.Need(), each.Unit, comp.Unit)
			if err != nil {
				e.wrongUnit(e.in.Menu.File, p.Pos, comp.Card, each)
				continue
			}
			if f, smaller := e.share[p.Card]; smaller && !comp.Card.IsPlate() {
				n = n.Mul(f)
			}
			e.use(comp, Use{Course: i + 1, Plate: j + 1, Covers: covers, Amount: n.Mul(quantity.Int(int64(covers)))})
		}
	}
}

// use adds a use to a component.
func (e *explosion) use(comp *Component, u Use) {
	comp.Uses = append(comp.Uses, u)
	comp.Need = comp.Need.Add(u.Amount)
}

// inUnit converts an amount of a component: by the card's weight of a piece and
// density, else by the food table. It returns an error when neither is enough.
func (e *explosion) inUnit(c *card.Card, n quantity.Number, from, to *quantity.Unit) (quantity.Number, error) {
	if out, ok := quantity.Convert(n, from, to); ok {
		return out, nil
	}
	out, _, err := larder.Convert(c.Title, n, from, to, c.Own())
	return out, err
}

// pass adds what a component's batches use to the needs of other cards and to what
// is bought.
func (e *explosion) pass(comp *Component) {
	c := comp.Card
	for i := range c.Items {
		it := &c.Items[i]
		if e.left(c, i) {
			continue
		}
		var sum quantity.Amount
		for _, m := range comp.Batches {
			if i < len(m.Items) {
				sum.Qty, sum.Unit = sum.Qty.Add(m.Items[i].Need()), m.Items[i].Unit
			}
		}
		if it.Card == "" {
			if len(comp.Batches) > 0 {
				e.d.Buy = append(e.d.Buy, Bought{Card: c.ID, Item: i + 1, Amount: sum})
			}
			continue
		}
		to := e.d.ByCard[it.Card]
		if it.Save != "" && (to == nil || !slices.ContainsFunc(to.Saves, func(s Saved) bool { return s.Slug == it.Save && s.Unit != nil })) {
			e.d.Buy = append(e.d.Buy, Bought{Card: c.ID, Item: i + 1, Amount: sum, Rest: true}) // no card sets it aside
			continue
		}
		if to == nil || sum.Unit == nil || sum.Qty.IsZero() || e.state[it.Card] != 2 || to == comp {
			continue
		}
		u := Use{By: c.ID, Item: i + 1}
		if it.Save != "" {
			e.useSaved(to, *it, sum, u, c)
			continue
		}
		for _, lot := range comp.itemByLot(i) {
			n, err := e.inUnit(to.Card, lot.Amount.Qty, sum.Unit, to.Unit)
			if err != nil {
				e.wrongUnit(c.File, it.Pos, to.Card, it.Amount)
				break
			}
			u.Of, u.Amount = lot.Lot, n
			e.use(to, u)
		}
	}
}

// useSaved adds a use to a by-product.
func (e *explosion) useSaved(from *Component, it card.Item, a quantity.Amount, u Use, by *card.Card) {
	for i := range from.Saves {
		s := &from.Saves[i]
		if s.Slug != it.Save || s.Unit == nil {
			continue
		}
		n, _, err := larder.Convert(it.Name, a.Qty, a.Unit, s.Unit, by.OwnOf(&it))
		if err != nil {
			e.fault(by.File, it.Pos, document.Error, err.Error())
			return
		}
		u.Amount = n
		s.Uses = append(s.Uses, u)
		s.Used = s.Used.Add(n)
	}
}

// balance works out what a component has left, or lacks, once all its uses are
// known.
func (e *explosion) balance(comp *Component) {
	var made, factor quantity.Number
	for _, m := range comp.Batches {
		if m.Measured {
			made = made.Add(m.Got)
		} else {
			made = made.Add(m.Amount)
		}
		factor = factor.Add(m.Factor)
	}
	comp.Made = made
	spare := made.Sub(comp.Need)
	switch {
	case spare.Sign() < 0:
		comp.Short, comp.Margin, comp.Left = true, quantity.Number{}, spare
	case comp.lacks().Sign() > 0: // enough in total, but one lot is too small
		comp.Short, comp.Margin, comp.Left = true, quantity.Number{}, spare
	case spare.Cmp(comp.Margin) < 0:
		comp.Margin, comp.Left = spare, quantity.Number{} // the margin covers it
	default:
		comp.Left = spare.Sub(comp.Margin)
	}
	if comp.Spare.Cmp(comp.Margin) > 0 {
		comp.Spare = comp.Margin // a batch gave less: fewer are left to spare
	}
	for i := range comp.Saves {
		s := &comp.Saves[i]
		s.Have = comp.Card.Saves[i].Amount.Qty.Mul(factor)
		if s.Used.Cmp(s.Have) <= 0 {
			continue
		}
		e.buyRest(s.Uses, s.Used.Sub(s.Have), s.Unit)
		pref := quantity.Prefs{Scale: quantity.Int(1)}
		e.fault(comp.Card.File, comp.Card.Saves[i].Pos, document.Warning, "the dinner uses "+
			quantity.Show(quantity.Amount{Qty: s.Used, Unit: s.Unit}, pref)+" of the "+comp.Card.Saves[i].Name+
			", this saves "+quantity.Show(quantity.Amount{Qty: s.Have, Unit: s.Unit}, pref)+": buy or make the rest")
	}
}

// buyRest buys what exceeds the by-product that is set aside. The by-product
// itself goes to its users in their order.
func (e *explosion) buyRest(uses []Use, rest quantity.Number, unit *quantity.Unit) {
	for _, u := range slices.Backward(uses) {
		if rest.Sign() <= 0 {
			return
		}
		n := u.Amount
		if rest.Cmp(n) < 0 {
			n = rest
		}
		rest = rest.Sub(n)
		e.d.Buy = append(e.d.Buy, Bought{Card: u.By, Item: u.Item, Amount: quantity.Amount{Qty: n, Unit: unit}, Rest: true})
	}
}
