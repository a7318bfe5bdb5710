package demand

import "hobside/internal/quantity"

// fixedBatch is a batch that is begun or done, in its component's unit.
type fixedBatch struct {
	amount   quantity.Number // as planned when it was begun; 0: as planned now
	got      quantity.Number
	measured bool
}

// gives is what a batch puts into the books.
func (f fixedBatch) gives() quantity.Number {
	if f.measured {
		return f.got
	}
	return f.amount
}

// fixed gathers a component's batches that are begun or done, by number. Plates
// are put together cover by cover and have none.
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

// around plans the batches that are still to come around those that are not to
// be changed any more. What is made stays made: fewer covers leave more over,
// and a shortage shows as such. It is made good by itself only where batches
// are still to come; else it is for the cook to choose (see [Means]).
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
				f.amount = f.got // nobody knows any more what was planned
			}
			fixed[n] = f
		}
		sum = sum.Add(f.gives())
	}
	var coming []quantity.Number
	short := need.Sub(sum)
	if need.IsZero() {
		short = target.Sub(sum) // made for what it sets aside
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
			out = append(out, quantity.Number{}) // not needed any more; its number stays its own
		}
	}
	return out
}
