package dinner

import (
	"maps"
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/quantity"
)

// yields reports whether a weight taken at a step is what the whole batch gave: the
// step ends when the weight that the card makes is reached.
func yields(c *card.Card, step int) bool {
	if step < 1 || step > len(c.Steps) {
		return false
	}
	until := c.Steps[step-1].Until.Amount
	if until.Unit == nil || c.Makes.Unit == nil {
		return false
	}
	n, ok := quantity.Convert(until.Need(), until.Unit, c.Makes.Unit)
	return ok && n.Cmp(c.Makes.Need()) == 0
}

// counted returns the weight that counts of those taken of one batch: the newest
// that is not odd. An odd weight counts once it has been entered a second time.
// ok is false when none counts.
func counted(c *card.Card, factor quantity.Number, all []Measure) (weight quantity.Amount, ok bool) {
	for i, m := range slices.Backward(all) {
		if !odd(c, factor, m.Amount) || i > 0 && same(m.Amount, all[i-1].Amount) {
			return m.Amount, true
		}
	}
	return quantity.Amount{}, false
}

// onTheWay reports whether a pot that is not ticked yet still weighs more than a
// tenth over what its step boils it down to: a weight to see how far it is, and
// not what the batch gave.
func onTheWay(c *card.Card, factor quantity.Number, step int, all []Measure) bool {
	until := c.Steps[step-1].Until.Amount
	if factor.Sign() <= 0 {
		factor = quantity.Int(1)
	}
	last := all[len(all)-1].Amount
	n, ok := quantity.Convert(last.Qty, last.Unit, until.Unit)
	return ok && n.Mul(quantity.Int(10)).Cmp(until.Need().Mul(factor).Mul(quantity.Int(11))) > 0
}

// odd reports whether a weight is probably a typing mistake: zero, or at least
// ten times as much or as little as planned. The cook is asked about it.
func odd(c *card.Card, factor quantity.Number, got quantity.Amount) bool {
	if factor.Sign() <= 0 {
		factor = quantity.Int(1)
	}
	planned := c.Makes.Qty.Mul(factor)
	n, ok := quantity.Convert(got.Qty, got.Unit, c.Makes.Unit)
	if !ok || planned.Sign() <= 0 {
		return false
	}
	ten := quantity.Int(10)
	return n.Mul(ten).Cmp(planned) <= 0 || n.Cmp(planned.Mul(ten)) >= 0
}

func same(a, b quantity.Amount) bool { return a.Unit == b.Unit && a.Qty.Cmp(b.Qty) == 0 }

// A Doubt is a weight that is kept and does not count until it is entered again.
type Doubt struct {
	Key          string // what was weighed: a batch or a step of it
	Got, Planned quantity.Amount
}

// Doubt returns the first odd weight of a component's batches that nobody has
// confirmed; ok is false when there is none.
func (l *Live) Doubt(comp *demand.Component) (d Doubt, ok bool) {
	c := comp.Card
	for _, key := range slices.Sorted(maps.Keys(l.state.Measures)) {
		k, ok := ParseKey(key)
		if !ok || k.Card != c.ID || k.Step > 0 && !yields(c, k.Step) || k.Batch < 1 || k.Batch > len(comp.Batches) {
			continue
		}
		all := l.state.Measures[key]
		last, factor := all[len(all)-1].Amount, comp.Batches[k.Batch-1].Factor
		if odd(c, factor, last) && (len(all) == 1 || !same(last, all[len(all)-2].Amount)) {
			return Doubt{Key: key, Got: last, Planned: c.Makes.Scale(factor)}, true
		}
	}
	return Doubt{}, false
}
