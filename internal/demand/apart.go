package demand

import "hobside/internal/quantity"

// Apart says which cards are made more than once because what they make does not
// keep from the first that take it to the last: by card ID, who takes from which
// lot, counted from 1. A taker that is not named takes from the first.
//
// A lot is one batch, or several where one would be too large. Batches are
// numbered by turns, the first of each lot, then the second of each, so that a
// lot that grows with the covers leaves the numbers of the others alone.
type Apart map[string]map[Taker]int

// A Taker is one place where a component goes; see [Use].
type Taker struct {
	By     string // card ID, "" for the guests themselves
	Of     int    // which lot of By takes it, 0 when that is not made apart
	Item   int    // 1 + index in By's formula
	Course int    // 1 + index in Menu.Courses, 0 when By is a card
	Plate  int    // 1 + index in Course.Plates
}

// Taker is who takes the use.
func (u Use) Taker() Taker {
	return Taker{By: u.By, Of: u.Of, Item: u.Item, Course: u.Course, Plate: u.Plate}
}

// mostLots is more often than any dinner wants one card made apart.
const mostLots = 20

// lots is how many lots a component is made in; 1 when it is not made apart. It
// says of each use which one it takes from.
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

// wants is how much is used of one lot.
func (c *Component) wants(lot int) quantity.Number {
	var sum quantity.Number
	for _, u := range c.Uses {
		if u.Lot == lot {
			sum = sum.Add(u.Amount)
		}
	}
	return sum
}

// lacks is how much the batches give less than is used, lot by lot: what is over
// of one cannot serve another.
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

// anItemOf is how much of an item one lot uses.
type anItemOf struct {
	Lot    int
	Amount quantity.Amount
}

// itemByLot is how much of an item the batches use, by lot; all of it in one
// where the card is not made apart.
func (c *Component) itemByLot(item int) []anItemOf {
	var out []anItemOf
	for _, m := range c.Batches {
		if item >= len(m.Items) || m.Items[item].Qty.IsZero() && m.Lot > 0 {
			continue
		}
		k := 0
		for k < len(out) && out[k].Lot != m.Lot {
			k++
		}
		if k == len(out) {
			out = append(out, anItemOf{Lot: m.Lot})
		}
		out[k].Amount.Qty, out[k].Amount.Unit = out[k].Amount.Qty.Add(m.Items[item].Need()), m.Items[item].Unit
	}
	return out
}

// byTurns lays the batches of several lots out in one numbering. A number whose
// turn it is of a lot that has no more batches stays empty.
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
