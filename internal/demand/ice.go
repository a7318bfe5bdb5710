package demand

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// What the ice of a bath is worked out by. Melting takes 334 kJ a kilo and water gives off 4.18 kJ
// a kilo and degree (physical constants, from memory); food is taken as water. Half as much again
// is for the tub and the air: our own working value, no source.
const (
	meltKJ, waterKJ = 334, 4.18
	iceMore         = 1.5
	roomC, boilingC = 20, 100
	icedC           = 5 // what lies in iced water and gives no temperature
)

// iceLine returns the line of the order list for the ice of all ice baths; ok is false where no
// step has one. A card whose formula has ice has its own.
func iceLine(d *Demand) (l *line, ok bool) {
	kilo, _ := quantity.LookupUnit("kg")
	l = &line{Line: Line{Section: "frozen", Slug: "ice", Name: "ice"}, food: "ice", foodSlug: "ice"}
	grams := 0
	for _, comp := range d.Components {
		of := 0
		for _, m := range comp.Batches {
			of += iceOf(comp.Card, m.Factor)
		}
		if of > 0 {
			l.Wants = append(l.Wants, Want{Card: comp.Card.ID, Amount: quantity.Amount{Qty: quantity.Frac(int64(of), 1000), Unit: kilo}})
			grams += of
		}
	}
	all := quantity.Amount{Qty: quantity.Frac(int64(grams), 1000), Unit: kilo}
	l.Need, l.buy = []quantity.Amount{all}, []quantity.Amount{all}
	l.note("for the ice baths: what melts while the food, taken as water, cools (334 kJ a kilo, from memory), and half as much again (own working value)")
	return l, grams > 0
}

// iceOf returns how much ice the baths of a batch take, in grams, by the first way of the card.
func iceOf(c *card.Card, factor quantity.Number) int {
	if slices.ContainsFunc(c.Items, func(it card.Item) bool { return larder.IsIce(it.Name) }) {
		return 0
	}
	gram, _ := quantity.LookupUnit("g")
	made, _, err := larder.Convert(c.Title, c.Makes.Need().Mul(factor), c.Makes.Unit, gram, c.Own())
	if err != nil {
		return 0
	}
	sum := 0.0
	hot := false
	for i := range c.Steps {
		s := &c.Steps[i]
		bath := false
		for _, q := range s.Equipment {
			std, _ := document.FindEquipment(q.Name)
			hot = hot || std.Heat
			bath = bath || q.Name == "ice bath"
		}
		if !bath || !s.In(1) {
			continue
		}
		from, to := float64(roomC), float64(icedC)
		if hot {
			from = boilingC
		}
		if stage, ok := c.StageBefore(i); ok {
			from = c.Steps[stage].Cool.ToC
		}
		if s.Cool.Set {
			to = s.Cool.ToC
		}
		if from > to {
			sum += made.Float64() * waterKJ * (from - to) / meltKJ * iceMore
		}
		hot = false
	}
	return int(sum + 0.5)
}
