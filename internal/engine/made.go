package engine

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// begun finds the batches of which a step was begun or done, or that were
// weighed, by batch key. Plates are put together cover by cover and don't count.
func begun(s *dinner.State) map[string]bool {
	out := map[string]bool{}
	add := func(key string) {
		if k, ok := dinner.ParseKey(key); ok && k.Batch > 0 && k.Mise == 0 {
			out[dinner.BatchKey(k.Card, k.Batch)] = true
		}
	}
	for key, tick := range s.Ticks {
		if tick.Done {
			add(key)
		}
	}
	for key := range s.Starts {
		add(key)
	}
	for key := range s.Ends {
		add(key)
	}
	for key, m := range s.Measures {
		if len(m) > 0 {
			add(key)
		}
	}
	return out
}

// changes says whether an event changes how much is planned.
func changes(kind dinner.Kind) bool {
	switch kind {
	case dinner.KindOpen, dinner.KindPin, dinner.KindCovers, dinner.KindGuests, dinner.KindPortion, dinner.KindLeave, dinner.KindAgain, dinner.KindMeasure:
		return true
	}
	return false
}

// freeze works out, for every batch that is begun, how much of the card was
// planned when it was: what is in the pot stays in the pot, whatever the covers
// are by now. It goes through the events in their order, as every device does,
// and explodes the dinner anew only where a batch was begun after a change.
func (f *followed) freeze() map[string]quantity.Number {
	now := begun(f.state)
	out := map[string]quantity.Number{}
	if len(now) == 0 || !f.changed {
		return out
	}
	all := make([]dinner.Event, 0, len(f.events))
	for _, ev := range f.events {
		all = append(all, ev)
	}
	standing := dinner.Standing(all)
	var plan *demand.Demand
	for i, ev := range standing {
		if k, ok := dinner.ParseKey(ev.On); ok && k.Batch > 0 && k.Mise == 0 {
			key := dinner.BatchKey(k.Card, k.Batch)
			if _, known := out[key]; !known && now[key] {
				if plan == nil {
					before := dinner.Fold(standing[:i])
					plan, _ = demand.Explode(f.inputOf(before, out))
				}
				if comp := plan.ByCard[k.Card]; comp != nil && k.Batch <= len(comp.Batches) {
					out[key] = comp.Batches[k.Batch-1].Factor
				}
			}
		}
		if changes(ev.Kind) {
			plan = nil
		}
	}
	return out
}

// made lists the batches that are begun, with what was planned and what they
// gave, for a state and the plans frozen so far.
func (f *followed) made(s *dinner.State, cards map[string]*card.Card, frozen map[string]quantity.Number) map[string][]demand.Made {
	out := map[string][]demand.Made{}
	at := map[string]int{} // batch key -> place in out
	find := func(k dinner.Key) *demand.Made {
		key := dinner.BatchKey(k.Card, k.Batch)
		if _, ok := at[key]; !ok {
			at[key] = len(out[k.Card])
			out[k.Card] = append(out[k.Card], demand.Made{Batch: k.Batch, Factor: frozen[key]})
		}
		return &out[k.Card][at[key]]
	}
	for _, key := range sortedKeys(begun(s)) {
		if k, ok := dinner.ParseKey(key); ok && cards[k.Card] != nil {
			find(k)
		}
	}
	newest := map[string]int64{}
	for _, key := range sortedKeys(s.Measures) {
		k, ok := dinner.ParseKey(key)
		c := cards[k.Card]
		if !ok || c == nil || k.Step > 0 && !yields(c, k.Step) {
			continue // a weight on the way, not what the batch gave
		}
		m := find(k)
		if k.Step > 0 && !s.Ticks[key].Done && onTheWay(c, m.Factor, k.Step, s.Measures[key]) {
			continue
		}
		got, counts := counted(c, m.Factor, s.Measures[key])
		batch := dinner.BatchKey(k.Card, k.Batch)
		if last := s.Measures[key][len(s.Measures[key])-1].At; counts && last >= newest[batch] {
			newest[batch], m.Amount = last, got
		}
	}
	return out
}

// counted is the weight that counts of those taken of one batch: the newest,
// unless it is so far from the plan that it must be a slip (nothing, or ten
// times as much or as little). Such a one is kept and shown, and counts once it
// has been entered a second time.
func counted(c *card.Card, factor quantity.Number, all []dinner.Measure) (quantity.Amount, bool) {
	for i, m := range slices.Backward(all) {
		if !odd(c, factor, m.Amount) || i > 0 && same(m.Amount, all[i-1].Amount) {
			return m.Amount, true
		}
	}
	return quantity.Amount{}, false
}

// weighedDone lists the weighed steps that are ticked, by key.
func weighedDone(s *dinner.State) map[string]bool {
	out := map[string]bool{}
	for key := range s.Measures {
		if s.Ticks[key].Done {
			out[key] = true
		}
	}
	return out
}

// onTheWay says whether a pot that is not ticked yet still weighs more than a
// tenth over what its step boils it down to: a weight to see how far it is, and
// not what the batch gave.
func onTheWay(c *card.Card, factor quantity.Number, step int, all []dinner.Measure) bool {
	until := c.Steps[step-1].Until.Amount
	if factor.Sign() <= 0 {
		factor = quantity.Int(1)
	}
	last := all[len(all)-1].Amount
	n, ok := quantity.Convert(last.Qty, last.Unit, until.Unit)
	return ok && n.Mul(quantity.Int(10)).Cmp(until.Need().Mul(factor).Mul(quantity.Int(11))) > 0
}

// odd says whether a weight is so far from the plan that the cook is asked.
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
