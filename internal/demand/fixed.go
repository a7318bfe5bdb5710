package demand

import "hobside/internal/quantity"

// fixedBatch is a batch that was started or done, in its component's unit.
type fixedBatch struct {
	amount   quantity.Number // as planned at its start; 0: as planned now
	got      quantity.Number
	measured bool
}

// gives returns the yield that counts: measured, else planned.
func (f fixedBatch) gives() quantity.Number {
	if f.measured {
		return f.got
	}
	return f.amount
}

// fixed returns the batches of a component that were started or done, by number.
// Plates are assembled cover by cover and have none.
func (e *explosion) fixed(comp *Component) map[int]fixedBatch {
	c := comp.Card
	if c.IsPlate() || len(e.in.Made[c.ID]) == 0 {
		return nil
	}
	out := map[int]fixedBatch{}
	for _, made := range e.in.Made[c.ID] {
		if made.Batch < 1 || made.Batch > maxBatches {
			continue
		}
		f := out[made.Batch]
		if made.Factor.Sign() > 0 {
			f.amount = made.Factor.Mul(c.Makes.Qty)
		}
		if made.Amount.Unit != nil {
			got, err := e.inUnit(c, made.Amount.Qty, made.Amount.Unit, comp.Unit)
			if err != nil {
				continue // the screen asks in the card's own unit
			}
			f.measured, f.got = true, got
		}
		out[made.Batch] = f
	}
	return out
}

// around plans the batches that are not started yet around those that are. Made
// batches stay: fewer covers leave more over, and a shortage stays a shortage. The
// remaining batches make it up where there are any; else the cook chooses what to
// do, see [Consequences].
func (e *explosion) around(comp *Component, need quantity.Number, fixed map[int]fixedBatch, planned []quantity.Number, target, smallest, largest, whole quantity.Number) []quantity.Number {
	last, open := 0, 0
	for n := range fixed {
		last = max(last, n)
	}
	for i := range planned {
		if _, ok := fixed[i+1]; !ok {
			open++
		}
	}
	var sum quantity.Number
	for n, f := range fixed {
		if f.amount.IsZero() {
			switch {
			case n <= len(planned):
				f.amount = planned[n-1]
			case f.measured:
				f.amount = f.got // its plan is not known any more
			}
			fixed[n] = f
		}
		sum = sum.Add(f.gives())
	}
	var coming []quantity.Number
	short := need.Sub(sum)
	if need.IsZero() {
		short = target.Sub(sum) // made for its by-product
	}
	switch {
	case short.Sign() <= 0: // enough; the margin alone is no reason to make more
	case open > 0:
		coming = divide(target.Sub(sum), smallest, largest, whole)
	case e.in.Again[comp.Card.ID]:
		coming = divide(short, smallest, largest, whole)
	}
	var out []quantity.Number
	for n := 1; n <= last || len(coming) > 0; n++ {
		f, isFixed := fixed[n]
		switch {
		case isFixed:
			out = append(out, f.amount)
		case len(coming) > 0:
			out, coming = append(out, coming[0]), coming[1:]
		default:
			out = append(out, quantity.Number{}) // not needed any more; its number is not used again
		}
	}
	return out
}
