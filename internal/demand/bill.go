package demand

import (
	"slices"

	"hobside/internal/quantity"
)

// A Bill is what a dinner costs by the kitchen's prices.
type Bill struct {
	Used Spent // all that the batches take, margins and what is left over included

	demand *Demand
	costs  *costs
}

// BillOf returns what the batches of a dinner take, in money: nothing where the kitchen
// has no prices.
func BillOf(in Input, d *Demand, shop Shop) *Bill {
	if len(shop.Prices) == 0 {
		return &Bill{demand: d}
	}
	in.Cards = d.Cards()
	b := &Bill{demand: d, costs: newCosts(in, shop)}
	for i := range d.Buy {
		of := &d.Buy[i]
		c := in.Cards[of.Card]
		if it := &c.Items[of.Item-1]; it.Amount.ToTaste {
			b.Used.assume(it.Name + " to taste is not counted")
		} else {
			b.costs.bought(&b.Used, c, it, of.Amount)
		}
	}
	slices.Sort(b.Used.Assumed)
	return b
}

// Batch returns what one batch of a card costs, its components included.
func (b *Bill) Batch(comp *Component, batch Batch) Spent {
	if b.costs == nil {
		return Spent{}
	}
	return b.costs.card(comp.Card.ID).Times(batch.Factor)
}

// Plate returns what one cover gets by a line of the menu, counted from 1: its cost, or
// nothing where no guest gets it.
func (b *Bill) Plate(course, plate int) Spent {
	if b.costs == nil {
		return Spent{}
	}
	comp, share := b.demand.Cover(course, plate)
	if comp == nil {
		return Spent{}
	}
	return b.costs.card(comp.Card.ID).Times(share)
}

// Cover returns what one cover's share is of all that the batches take.
func (b *Bill) Cover() Spent {
	if b.demand.Covers < 1 {
		return Spent{}
	}
	return b.Used.Times(quantity.Frac(1, int64(b.demand.Covers)))
}
