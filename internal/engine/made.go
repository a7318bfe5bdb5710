package engine

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/quantity"
	"hobside/internal/sitting"
)

// begun finds the makings of which a step was begun or done, or that were
// weighed, by making key. Plates are put together cover by cover and don't count.
func begun(s *sitting.State) map[string]bool {
	out := map[string]bool{}
	add := func(key string) {
		if k, ok := sitting.ParseKey(key); ok && k.Making > 0 && k.Mise == 0 {
			out[sitting.MakingKey(k.Card, k.Making)] = true
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
func changes(kind sitting.Kind) bool {
	switch kind {
	case sitting.KindOpen, sitting.KindPin, sitting.KindCovers, sitting.KindGuests, sitting.KindPortion, sitting.KindLeave, sitting.KindAgain, sitting.KindMeasure:
		return true
	}
	return false
}

// freeze works out, for every making that is begun, how much of the card was
// planned when it was: what is in the pot stays in the pot, whatever the covers
// are by now. It goes through the events in their order, as every device does,
// and explodes the dinner anew only where a making was begun after a change.
func (f *followed) freeze() map[string]quantity.Number {
	now := begun(f.state)
	out := map[string]quantity.Number{}
	if len(now) == 0 || !f.changed {
		return out
	}
	all := make([]sitting.Event, 0, len(f.events))
	for _, ev := range f.events {
		all = append(all, ev)
	}
	standing := sitting.Standing(all)
	var plan *demand.Demand
	for i, ev := range standing {
		if k, ok := sitting.ParseKey(ev.On); ok && k.Making > 0 && k.Mise == 0 {
			key := sitting.MakingKey(k.Card, k.Making)
			if _, known := out[key]; !known && now[key] {
				if plan == nil {
					before := sitting.Fold(standing[:i])
					plan, _ = demand.Explode(f.inputOf(before, out))
				}
				if comp := plan.ByCard[k.Card]; comp != nil && k.Making <= len(comp.Makings) {
					out[key] = comp.Makings[k.Making-1].Factor
				}
			}
		}
		if changes(ev.Kind) {
			plan = nil
		}
	}
	return out
}

// made lists the makings that are begun, with what was planned and what they
// gave, for a state and the plans frozen so far.
func (f *followed) made(s *sitting.State, cards map[string]*card.Card, frozen map[string]quantity.Number) map[string][]demand.Made {
	out := map[string][]demand.Made{}
	at := map[string]int{} // making key -> place in out
	find := func(k sitting.Key) *demand.Made {
		key := sitting.MakingKey(k.Card, k.Making)
		if _, ok := at[key]; !ok {
			at[key] = len(out[k.Card])
			out[k.Card] = append(out[k.Card], demand.Made{Making: k.Making, Factor: frozen[key]})
		}
		return &out[k.Card][at[key]]
	}
	for _, key := range sortedKeys(begun(s)) {
		if k, ok := sitting.ParseKey(key); ok && cards[k.Card] != nil {
			find(k)
		}
	}
	newest := map[string]int64{}
	for _, key := range sortedKeys(s.Measures) {
		k, ok := sitting.ParseKey(key)
		c := cards[k.Card]
		if !ok || c == nil || k.Step > 0 && !yields(c, k.Step) {
			continue // a weight on the way, not what the making gave
		}
		m := find(k)
		if k.Step > 0 && !s.Ticks[key].Done && onTheWay(c, m.Factor, k.Step, s.Measures[key]) {
			continue
		}
		got, counts := counted(c, m.Factor, s.Measures[key])
		making := sitting.MakingKey(k.Card, k.Making)
		if last := s.Measures[key][len(s.Measures[key])-1].At; counts && last >= newest[making] {
			newest[making], m.Amount = last, got
		}
	}
	return out
}

// counted is the weight that counts of those taken of one making: the newest,
// unless it is so far from the plan that it must be a slip (nothing, or ten
// times as much or as little). Such a one is kept and shown, and counts once it
// has been entered a second time.
func counted(c *card.Card, factor quantity.Number, all []sitting.Measure) (quantity.Amount, bool) {
	for i, m := range slices.Backward(all) {
		if !odd(c, factor, m.Amount) || i > 0 && same(m.Amount, all[i-1].Amount) {
			return m.Amount, true
		}
	}
	return quantity.Amount{}, false
}

// weighedDone lists the weighed steps that are ticked, by key.
func weighedDone(s *sitting.State) map[string]bool {
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
// not what the making gave.
func onTheWay(c *card.Card, factor quantity.Number, step int, all []sitting.Measure) bool {
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
