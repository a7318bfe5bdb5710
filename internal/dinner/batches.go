package dinner

import (
	"maps"
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// begun returns the batches, by key, of which a step was begun or done, or that
// were weighed. Plates are put together cover by cover and don't count.
func begun(s *State) map[string]bool {
	out := map[string]bool{}
	add := func(key string) {
		if k, ok := ParseKey(key); ok && k.isWork() {
			out[BatchKey(k.Card, k.Batch)] = true
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

// weighedDone returns the weighed steps that are ticked, by key.
func weighedDone(s *State) map[string]bool {
	out := map[string]bool{}
	for key := range s.Measures {
		if s.Ticks[key].Done {
			out[key] = true
		}
	}
	return out
}

// changesAmounts reports whether an event is of a kind that changes how much is planned.
func changesAmounts(ev *Event) bool {
	switch ev.Kind {
	case KindOpen, KindPin, KindCovers, KindGuests, KindPortion, KindLeave, KindPlate, KindWay, KindAgain, KindMeasure:
		return true
	case KindChange:
		return slices.ContainsFunc(ev.Do, func(d plan.Deed) bool { return onMenu(d) || d.Do == plan.DoEquipment })
	}
	return false
}

// frozen returns, for every batch that is begun, how much of the card was
// planned when it was begun: an amount that is already in a pot does not follow
// the covers. It goes through the events in their order, as every device does.
// An earlier state is exploded only when a batch was begun in it and the state
// was not exploded before.
func (l *Live) frozen() map[string]quantity.Number {
	now := begun(l.state)
	out := map[string]quantity.Number{}
	if len(now) == 0 || !l.changed {
		return out
	}
	standing := Standing(l.all())
	var then *demand.Demand
	for i, ev := range standing {
		if k, ok := ParseKey(ev.On); ok && k.isWork() {
			key := BatchKey(k.Card, k.Batch)
			if _, known := out[key]; !known && now[key] {
				if then == nil {
					then = l.explode(Fold(standing[:i]), out).demand
				}
				if comp := then.ByCard[k.Card]; comp != nil && k.Batch <= len(comp.Batches) {
					out[key] = comp.Batches[k.Batch-1].Factor
				}
			}
		}
		if changesAmounts(&ev) {
			then = nil
		}
	}
	return out
}

// made lists the batches that are begun, by card: what was planned and what they
// gave. Frozen holds what was planned, by batch key.
func made(s *State, cards map[string]*card.Card, frozen map[string]quantity.Number) map[string][]demand.Made {
	out := map[string][]demand.Made{}
	at := map[string]int{} // batch key -> place in out
	find := func(k Key) *demand.Made {
		key := BatchKey(k.Card, k.Batch)
		if _, ok := at[key]; !ok {
			at[key] = len(out[k.Card])
			out[k.Card] = append(out[k.Card], demand.Made{Batch: k.Batch, Factor: frozen[key]})
		}
		return &out[k.Card][at[key]]
	}
	for _, key := range slices.Sorted(maps.Keys(begun(s))) {
		if k, ok := ParseKey(key); ok && cards[k.Card] != nil {
			find(k)
		}
	}
	newest := map[string]int64{}
	for _, key := range slices.Sorted(maps.Keys(s.Measures)) {
		k, ok := ParseKey(key)
		c := cards[k.Card]
		if !ok || c == nil || k.Step > 0 && !yields(c, k.Step) {
			continue // a weight on the way, not what the batch gave
		}
		m := find(k)
		if k.Step > 0 && !s.Ticks[key].Done && onTheWay(c, m.Factor, k.Step, s.Measures[key]) {
			continue
		}
		got, counts := counted(c, m.Factor, s.Measures[key])
		batch := BatchKey(k.Card, k.Batch)
		if last := s.Measures[key][len(s.Measures[key])-1].At; counts && last >= newest[batch] {
			newest[batch], m.Amount = last, got
		}
	}
	return out
}
