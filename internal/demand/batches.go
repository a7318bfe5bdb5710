package demand

import (
	"strconv"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// maxBatches bounds the batches of one card: more than this is a slip in "largest"
// or in the covers.
const maxBatches = 500

// make plans the batches of a component.
func (e *explosion) make(comp *Component) {
	c := comp.Card
	margin := c.Margin
	if margin.IsZero() && !c.NoMargin && !c.IsPlate() {
		margin = e.in.Menu.Margin
	}
	comp.Spare = c.Spares.Of(c, comp.Need)
	comp.Margin = comp.Need.Mul(margin).Add(comp.Spare)
	target := comp.Need.Add(comp.Margin)
	if forSaved := e.forSaved(comp); target.IsZero() && forSaved.Sign() > 0 {
		target = forSaved // made for its by-product alone
	}
	fixed := e.fixed(comp)
	if target.Sign() <= 0 && len(fixed) == 0 {
		return
	}
	lots := e.lots(comp)
	var planned []quantity.Number
	if lots == 1 {
		planned = e.lot(comp, comp.Need, target, fixed)
	} else {
		each, spare := make([][]quantity.Number, lots), comp.Spare
		for i := range each {
			need := comp.wants(i + 1)
			own := map[int]fixedBatch{} // numbered within the lot
			for n, f := range fixed {
				if (n-1)%lots == i {
					own[(n-1)/lots+1] = f
				}
			}
			target := need.Add(need.Mul(margin))
			if need.Sign() > 0 { // the spares are made once, with the first
				target, spare = target.Add(spare), quantity.Number{}
			}
			each[i] = e.lot(comp, need, target, own)
		}
		planned = byTurns(each)
	}
	comp.Batches = make([]Batch, 0, len(planned))
	for i, amount := range planned {
		m := Batch{Amount: amount, Factor: amount.Quo(c.Makes.Qty)}
		if lots > 1 {
			m.Lot = i%lots + 1
		}
		if f, ok := fixed[i+1]; ok {
			m.Fixed, m.Measured, m.Got = true, f.measured, f.got
		}
		m.Items = make([]quantity.Amount, len(c.Items))
		for k := range c.Items {
			if !e.left(c, k) {
				m.Items[k] = c.Items[k].Takes(m.Factor)
			}
		}
		comp.Batches = append(comp.Batches, m)
	}
}

// lot plans the batches of one lot.
func (e *explosion) lot(comp *Component, need, target quantity.Number, fixed map[int]fixedBatch) []quantity.Number {
	c := comp.Card
	smallest, largest, whole := e.size(comp, c.Smallest), e.size(comp, c.Largest), e.size(comp, c.Whole)
	var planned []quantity.Number
	if target.Sign() > 0 {
		planned = divide(target, smallest, largest, whole)
		if len(planned) == maxBatches {
			e.fault(c.File, document.Pos{Line: 1, Col: 1}, document.Warning, "this would be made "+strconv.Itoa(maxBatches)+
				" times over: look at \"largest\" and at how much is wanted of it")
		}
	}
	if len(fixed) > 0 {
		planned = e.around(comp, need, fixed, planned, target, smallest, largest, whole)
	}
	return planned
}

// size returns one of the card's limits in the unit it makes, 0 for none.
func (e *explosion) size(comp *Component, a quantity.Amount) quantity.Number {
	if a.Unit == nil {
		return quantity.Number{}
	}
	n, err := e.inUnit(comp.Card, a.Qty, a.Unit, comp.Unit)
	if err != nil {
		return quantity.Number{} // reported by the card's own check
	}
	return n
}

// divide splits an amount into batches, as equal as possible: none below smallest,
// none above largest, each a multiple of whole where it is set. The sum is never
// below the target; where the parts would be too small, each is made at smallest.
func divide(target, smallest, largest, whole quantity.Number) []quantity.Number {
	one := quantity.Int(1)
	if target.Cmp(smallest) < 0 {
		target = smallest
	}
	if whole.Sign() > 0 {
		units := target.Quo(whole).Ceil()
		most := units
		if largest.Sign() > 0 {
			if m := largest.Quo(whole).Floor(); m.Sign() > 0 {
				most = m
			} else {
				most = one // "whole" exceeds "largest": one at a time comes nearest to both
			}
		}
		n, ok := units.Quo(most).Ceil().Int64()
		if !ok || n > maxBatches {
			n = maxBatches
		}
		parts := make([]quantity.Number, n)
		share := units.Quo(quantity.Int(n)).Floor()
		extra, _ := units.Sub(share.Mul(quantity.Int(n))).Int64()
		least := smallest.Quo(whole).Ceil()
		for i := range parts {
			parts[i] = share
			if int64(i) < extra {
				parts[i] = share.Add(one)
			}
			if parts[i].Cmp(least) < 0 {
				parts[i] = least
			}
			parts[i] = parts[i].Mul(whole)
		}
		return parts
	}
	n := int64(1)
	if largest.Sign() > 0 && target.Cmp(largest) > 0 {
		var ok bool
		if n, ok = target.Quo(largest).Ceil().Int64(); !ok || n > maxBatches {
			n = maxBatches
		}
	}
	parts := make([]quantity.Number, n)
	for i := range parts {
		parts[i] = target.Quo(quantity.Int(n))
		if parts[i].Cmp(smallest) < 0 {
			parts[i] = smallest
		}
	}
	return parts
}

// forSaved returns how much of a card must be made for its by-products.
func (e *explosion) forSaved(comp *Component) quantity.Number {
	var most quantity.Number
	for i, s := range comp.Saves {
		per := comp.Card.Saves[i].Amount.Qty
		if per.Sign() <= 0 || s.Used.IsZero() {
			continue
		}
		if n := s.Used.Quo(per).Mul(comp.Card.Makes.Qty); n.Cmp(most) > 0 {
			most = n
		}
	}
	return most
}
