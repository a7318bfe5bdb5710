package demand

import "hobside/internal/quantity"

// Apart holds the cards that are made in several lots, because one batch would
// not keep from its first use to its last. By card ID it holds the lot that each
// taker uses, counted from 1; a taker that is missing uses the first lot.
//
// A lot is one batch, or several where one would be too large. Batch numbers go
// round the lots (the first of each, then the second of each), so that a lot that
// grows with the covers leaves the numbers of the others alone.
type Apart map[string]map[Taker]int

// A Taker is one place that a component goes into, see [Use].
type Taker struct {
	By     string // card ID, "" for the guests themselves
	Of     int    // lot of By that takes it, 0 when By is made in one lot
	Item   int    // 1 + index in By's formula
	Course int    // 1 + index in Menu.Courses, 0 when By is a card
	Plate  int    // 1 + index in Course.Plates
}

// Taker returns the place that a use goes into.
func (u Use) Taker() Taker {
	return Taker{By: u.By, Of: u.Of, Item: u.Item, Course: u.Course, Plate: u.Plate}
}

// mostLots bounds the lots of one card.
const mostLots = 20

// lots returns how many lots a component is made in, 1 for most, and sets the lot
// of each use.
func (e *explosion) lots(comp *Component) int {
	lots := 1
	takers := e.in.Apart[comp.Card.ID]
	for _, u := range comp.Uses {
		lots = max(lots, min(takers[u.Taker()], mostLots))
	}
	if lots == 1 {
		return 1
	}
	for i := range comp.Uses {
		u := &comp.Uses[i]
		u.Lot = max(1, min(takers[u.Taker()], lots))
	}
	return lots
}

// wants returns how much is used of one lot.
func (c *Component) wants(lot int) quantity.Number {
	var sum quantity.Number
	for _, u := range c.Uses {
		if u.Lot == lot {
			sum = sum.Add(u.Amount)
		}
	}
	return sum
}

// lacks returns how much the batches fall short of their uses, lot by lot: what is
// left of one lot does not serve another.
func (c *Component) lacks() quantity.Number {
	gives := map[int]quantity.Number{}
	most := 0
	for _, m := range c.Batches {
		most = max(most, m.Lot)
		if m.Measured {
			gives[m.Lot] = gives[m.Lot].Add(m.Got)
		} else {
			gives[m.Lot] = gives[m.Lot].Add(m.Amount)
		}
	}
	if most == 0 {
		return c.Need.Sub(c.Made)
	}
	var sum quantity.Number
	for lot := 1; lot <= most; lot++ {
		if d := c.wants(lot).Sub(gives[lot]); d.Sign() > 0 {
			sum = sum.Add(d)
		}
	}
	return sum
}

// lotAmount is how much of an item one lot uses.
type lotAmount struct {
	Lot    int
	Amount quantity.Amount
}

// itemByLot returns how much of an item the batches use, by lot; one entry with
// lot 0 for a card made in one lot.
func (c *Component) itemByLot(item int) []lotAmount {
	var out []lotAmount
	for _, m := range c.Batches {
		if item >= len(m.Items) || m.Items[item].Qty.IsZero() && m.Lot > 0 {
			continue
		}
		k := 0
		for k < len(out) && out[k].Lot != m.Lot {
			k++
		}
		if k == len(out) {
			out = append(out, lotAmount{Lot: m.Lot})
		}
		out[k].Amount.Qty, out[k].Amount.Unit = out[k].Amount.Qty.Add(m.Items[item].Need()), m.Items[item].Unit
	}
	return out
}

// byTurns numbers the batches of several lots in turn. Where it is the turn of a
// lot that has no more batches, the amount is 0.
func byTurns(lots [][]quantity.Number) []quantity.Number {
	var out []quantity.Number
	last := 0
	for turn := 0; ; turn++ {
		more := false
		for _, lot := range lots {
			var amount quantity.Number
			if turn < len(lot) {
				amount, more = lot[turn], true
			}
			out = append(out, amount)
			if turn < len(lot) {
				last = len(out)
			}
		}
		if !more {
			return out[:last]
		}
	}
}
