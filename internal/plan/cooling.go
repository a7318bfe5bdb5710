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
// no basis for a forecast.
func (b *builder) cools(comp *demand.Component, key Step, s *card.Step) document.Duration {
	if !s.Cool.Set || !s.Wait.IsZero() {
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
	if stage, ok := comp.Card.StageBefore(key.Step - 1); ok {
		v.FromC, v.HasFrom = comp.Card.Steps[stage].Cool.ToC, true // it begins where the stage before ends
	}
	w, ok := safety.CoolingWait(v, s.Cool.ToC)
	if !ok {
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
	if !slices.Contains(b.notes, note) {
		b.note(note)
	}
	return document.Duration{Low: seconds, High: seconds}
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
