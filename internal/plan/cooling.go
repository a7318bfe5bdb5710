package plan

import (
	"math"
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

var gram, _ = quantity.LookupUnit("g")

// cools returns how long a cooling step waits when its card gives no time: the slow
// end of the forecast, at most the card's own limit. It returns zero when there is
// no basis for a forecast. Of a card that gives both a time and the vessel it notes where
// that is shorter than the forecast.
func (b *builder) cools(comp *demand.Component, key Step, s *card.Step) document.Duration {
	if !s.Cool.Set || !s.Wait.IsZero() && s.Vessel.Name == "" {
		return document.Duration{}
	}
	var equipment []string
	for _, q := range s.Equipment {
		equipment = append(equipment, q.Name)
	}
	text := ""
	for _, r := range s.Text {
		text += r.Text
	}
	v := safety.VesselOf(comp.Card.Title, equipment, text, kilograms(comp, key.Batch), safety.NotKnown)
	if in := s.Vessel; in.Name != "" {
		n := comp.Card.Vessels(key.Step-1, comp.Batches[key.Batch-1].Factor)
		v = v.PouredInto(safety.Vessel{DepthM: in.DepthM, AcrossM: in.AcrossM, LengthM: in.LengthM, WidthM: in.WidthM}, in.Litres, n)
	}
	if stage, ok := comp.Card.StageBefore(key.Step - 1); ok {
		v.FromC, v.HasFrom = comp.Card.Steps[stage].Cool.ToC, true // it begins where the stage before ends
	}
	w, ok := b.coolingWait(v, s.Cool.ToC)
	if !ok {
		return document.Duration{}
	}
	if !s.Wait.IsZero() {
		if card := float64(s.Wait.High+s.Hands.High) / bySeconds; w.Minutes.Mid > card {
			b.say(b.name(key) + " cools to " + safety.Celsius(s.Cool.ToC) + " in " + document.FormatSeconds(s.Wait.High) + " by its card; in its " + s.Vessel.Name +
				" it is forecast to take " + w.Minutes.String() + ": put it in a shallower one, or stir it in iced water")
		}
		return document.Duration{}
	}
	seconds := int(math.Ceil(w.Minutes.Slow)) * bySeconds
	note := b.name(key) + " gives no wait: cooling to " + safety.Celsius(s.Cool.ToC) + " is forecast to take " + document.FormatSeconds(seconds)
	if s.Cool.Within > 0 && seconds > s.Cool.Within {
		note += ", over its limit of " + document.FormatSeconds(s.Cool.Within) + ": lay it thinner, or use an ice bath"
		seconds = s.Cool.Within
	}
	for _, a := range w.Assumed[:min(3, len(w.Assumed))] { // the step's own page shows all
		note += "; " + a
	}
	b.say(note)
	return document.Duration{Low: seconds, High: seconds}
}

// A cooling is food that cools in a vessel, to a temperature.
type cooling struct {
	in  safety.Vessel
	toC float64
}

// A cooled is what safety says about a cooling.
type cooled struct {
	wait safety.Wait
	ok   bool
}

// coolingWait returns how long food cools, worked out once for a dinner.
func (b *builder) coolingWait(v safety.Vessel, toC float64) (safety.Wait, bool) {
	if b.in.coolings == nil {
		b.in.coolings = map[cooling]cooled{}
	}
	key := cooling{v, toC}
	c, known := b.in.coolings[key]
	if !known {
		c.wait, c.ok = safety.CoolingWait(v, toC)
		b.in.coolings[key] = c
	}
	return c.wait, c.ok
}

// say notes what the cook is to know, once.
func (b *builder) say(note string) {
	if !slices.Contains(b.notes, note) {
		b.note(note)
	}
}

// kilograms returns the weight of a batch, 0 when it is not known.
func kilograms(comp *demand.Component, batch int) float64 {
	c := comp.Card
	amount := comp.Batches[batch-1].Amount
	grams, ok := quantity.Convert(amount, comp.Unit, gram)
	if !ok && c.Each.Unit != nil {
		grams, ok = quantity.Convert(amount.Mul(c.Each.Qty), c.Each.Unit, gram)
	}
	if !ok {
		return 0
	}
	return grams.Float64() / 1000
}
