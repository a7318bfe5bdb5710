package dinner

import "sort"

// rooms adds how full the fridge, the freezer, the hot cupboard and other stores are by a plan,
// what is too much for them, and what is got ready for what waits in them.
func (s *Schedule) rooms(made *Planned) {
	p := made.Plan
	stores := made.Input.Stores(p)
	s.Full, s.Room = []string{}, []string{}
	for i := range stores {
		store := &stores[i]
		for _, f := range store.Overfull() {
			s.Full = append(s.Full, p.OverfullText(store, f))
		}
		if !store.IsVessel() {
			s.Room = append(s.Room, p.FullestText(store))
		}
	}
	for _, r := range made.Input.Readies(p, stores) {
		key := HoldKey(r.For.Card, r.For.Batch, r.For.Step)
		if r.Plates {
			key = PlatesKey(r.For.Card, r.For.Batch, r.For.Step)
		}
		s.Heats = append(s.Heats, HeatTime{Key: key, Start: r.At, From: p.Reading(r.At).String(), Say: r.Text})
	}
	sort.SliceStable(s.Heats, func(i, j int) bool { return s.Heats[i].Start < s.Heats[j].Start })
}
