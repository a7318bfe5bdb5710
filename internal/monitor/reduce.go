package monitor

import (
	"math"
	"slices"
	"sort"
	"strconv"

	"hobside/internal/library"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// reduction says when a pot will be down to its weight. It returns false where
// nobody has weighed it.
func (w *watching) reduction() bool {
	measures := slices.Clone(w.state.Measures[w.key])
	sort.SliceStable(measures, func(i, j int) bool { return measures[i].At < measures[j].At })
	var log []safety.Weighing
	for _, m := range measures {
		kg := kilograms(m.Amount, w.card)
		if kg <= 0 {
			continue
		}
		if len(log) == 0 {
			w.base = m.At
		}
		minute := float64(m.At-w.base) / 60000
		counted := len(log) == 0 || minute > log[len(log)-1].Minute
		if counted {
			log = append(log, safety.Weighing{Minute: minute, Kg: kg})
		}
		w.out.Points = append(w.out.Points, Point{Event: m.Event, At: m.At, Text: w.amount(m.Amount), C: kg, Who: w.who(m.Event, m.Device), Counted: counted})
	}
	if len(log) == 0 {
		return false
	}
	v := w.out
	v.State = Open
	goal := w.step.Until.Amount.Scale(w.factor)
	target := kilograms(goal, w.card)
	words := w.amount(goal)
	last := log[len(log)-1]
	at := w.kilos(last.Kg) + " at " + w.clock(last.Minute)
	r, err := safety.Reduction(log, target, 0)
	switch {
	case last.Kg <= target:
		v.State, v.Line = Met, at+": down to "+words+"."
	case len(log) == 1:
		v.Line = at + ". Weigh it again in ten minutes to see when it is down to " + words + "."
	case err != nil:
		v.Line = at + ": " + err.Error() + "."
	default:
		v.Line = words + " at about " + w.clock(r.Minute) + "."
		text := words + " between " + w.clock(r.Early) + " and " + w.clock(r.Late)
		if math.IsInf(r.Late, 1) {
			text = words + " at " + w.clock(r.Early) + " at the soonest; the weights are too near each other to say when at the latest"
		}
		w.line(Open, text+"; "+w.kilos(r.KgPerH)+" boils away in an hour", safety.Source{Publication: "from its weighings", Status: safety.Computed})
		v.Assumed = r.Assumed
	}
	w.boil()
	return true
}

// kilos writes a mass in kilograms as this cook's scale shows it.
func (w *watching) kilos(kg float64) string {
	return w.amount(quantity.Amount{Qty: quantity.Frac(int64(math.Round(kg*1000)), 1000), Unit: kilogram})
}

// boil adds the temperature that water boils at in this kitchen, from 300 m up.
func (w *watching) boil() {
	k := w.worked.Kitchen
	if k == nil || k.AltitudeM < library.LowestM {
		return
	}
	if c, err := safety.BoilingC(float64(k.AltitudeM)); err == nil {
		w.line(None, "Water boils at "+w.Degrees(c)+" at "+strconv.Itoa(k.AltitudeM)+" m", safety.Source{Publication: safety.BoilingSource})
	}
}
