package engine

import (
	"math"
	"slices"
	"sort"
	"strconv"

	"hobside/internal/card"
	"hobside/internal/library"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

var kilogram, _ = quantity.LookupUnit("kg")
var litre, _ = quantity.LookupUnit("L")

// float is near enough for a forecast. By way of text: the exact way divides large
// integers, for which every phone would have to fetch the code.
func float(n quantity.Number) float64 {
	f, _ := strconv.ParseFloat(n.Decimal(6), 64)
	return f
}

// kilograms is the mass of an amount, 0 where it is not known. What has no
// density of its own on the card is taken for water.
func kilograms(a quantity.Amount, c *card.Card) float64 {
	if a.Unit == nil {
		return 0
	}
	if n, ok := quantity.Convert(a.Need(), a.Unit, kilogram); ok {
		return float(n)
	}
	if n, ok := quantity.Convert(a.Need(), a.Unit, litre); ok {
		density := 1.0
		if c.Density.Sign() > 0 {
			density = float(c.Density)
		}
		return float(n) * density
	}
	if c.Each.Unit != nil && a.Unit == c.Makes.Unit {
		if n, ok := quantity.Convert(c.Each.Need(), c.Each.Unit, kilogram); ok {
			return float(n.Mul(a.Need()))
		}
	}
	return 0
}

// reduction says when a pot will be down to its weight; false where nobody has
// weighed it.
func (w *watched) reduction() bool {
	measures := slices.Clone(w.f.State().Measures[w.call.Key])
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
		w.view.Points = append(w.view.Points, PointView{Event: m.Event, At: m.At, Text: w.e.amount(m.Amount), C: kg, Who: w.who(m.Event, m.Device), Counted: counted})
	}
	if len(log) == 0 {
		return false
	}
	v := w.view
	v.State = "open"
	goal := w.step.Until.Amount.Scale(w.factor)
	target := kilograms(goal, w.card)
	words := w.e.amount(goal)
	last := log[len(log)-1]
	at := w.kilos(last.Kg) + " at " + w.at(last.Minute)
	r, err := safety.Reduction(log, target, 0)
	switch {
	case last.Kg <= target:
		v.State, v.Line = "met", at+": down to "+words+"."
	case len(log) == 1:
		v.Line = at + ". Weigh it again in ten minutes to see when it is down to " + words + "."
	case err != nil:
		v.Line = at + ": " + err.Error() + "."
	default:
		v.Line = words + " at about " + w.at(r.Minute) + "."
		text := words + " between " + w.at(r.Early) + " and " + w.at(r.Late)
		if math.IsInf(r.Late, 1) {
			text = words + " at " + w.at(r.Early) + " at the soonest; the weights are too near each other to say when at the latest"
		}
		w.line("open", text+"; "+w.kilos(r.KgPerH)+" boils away in an hour", safety.Source{Publication: "from its weighings", Status: safety.Computed})
		v.Assumed = r.Assumed
	}
	w.boil()
	return true
}

// kilos writes a mass worked out here, to the scale.
func (w *watched) kilos(kg float64) string {
	return w.e.amount(quantity.Amount{Qty: quantity.Frac(int64(math.Round(kg*1000)), 1000), Unit: kilogram})
}

// boil says where water boils in this kitchen, from 300 m up.
func (w *watched) boil() {
	k := w.f.Worked().Kitchen
	if k == nil || k.AltitudeM < library.LowestM {
		return
	}
	if c, err := safety.BoilingC(float64(k.AltitudeM)); err == nil {
		w.line("", "Water boils at "+w.degrees(c)+" at "+itoa(k.AltitudeM)+" m", safety.Source{Publication: safety.BoilingSource})
	}
}
