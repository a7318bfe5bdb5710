package plan

import (
	"sort"

	"hobside/internal/safety"
)

// A Ready is something that is got ready for what waits: equipment is turned on to hold food or
// to warm plates, or plates are put into it.
type Ready struct {
	For    Step
	At     int // when it is done
	By     int // when it must be ready
	Plates bool
	Text   string // "put 18 plates in the hot cupboard for Pressed lamb, step 2"
}

// Readies returns what is got ready for what waits in some stores, by time. Equipment that a
// step is in, or that something waited in less than an hour before, is hot already.
func (in *Input) Readies(p *Plan, stores []Store) []Ready {
	var out []Ready
	for i := range stores {
		if s := &stores[i]; !s.vessels {
			out = append(out, in.readies(p, s)...)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].At < out[j].At })
	return out
}

// readies returns what is got ready in one store, whose stays are by time.
func (in *Input) readies(p *Plan, s *Store) []Ready {
	var out []Ready
	heatUp := hotIn(in.Kitchen, s.Name)
	hot := map[float64]int{} // until when it is, by temperature; 0 where no card gives one
	for _, stay := range s.Stays {
		temp := 0.0
		if stay.HasTemp {
			temp = stay.TempC
		}
		until, known := hot[temp]
		if !stay.HasTemp {
			for _, end := range hot { // at any temperature
				if !known || end > until {
					until, known = end, true
				}
			}
		}
		if heatUp > 0 && !stay.works && (!known || stay.From-until > anHour) {
			text := "turn on the " + s.Name
			if stay.HasTemp {
				text = "turn the " + s.Name + " to " + safety.Celsius(stay.TempC)
			}
			out = append(out, Ready{For: stay.Of, At: p.opening(stay.From-heatUp, stay.From), By: stay.From, Text: text + " for " + stay.What + " at " + p.Reading(stay.From).Clock()})
		}
		hot[temp] = max(until, stay.To)
		if !known {
			hot[temp] = stay.To
		}
		if stay.things != "" {
			out = append(out, Ready{For: stay.Of, At: p.opening(stay.From, stay.To), By: stay.To, Plates: true,
				Text: "put " + stay.things + " in the " + s.Name + " for " + p.Name(stay.Of)})
		}
	}
	return out
}
