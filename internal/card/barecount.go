package card

import (
	"hobside/internal/quantity"
)

// Bounds on a number without a unit. Common practice, no source: a count that comes to
// five times what the card makes, or to 2 kg for each plate, is a weight whose unit was
// left out.
var (
	manyCounted  = quantity.Int(30)
	mostOfYield  = quantity.Int(5)
	mostForPlate = quantity.Int(2000)
)

// bareCounts adds problems for items that are counted where a weight was meant: "900
// leeks".
func (p *parser) bareCounts() {
	for i := range p.card.Items {
		it := &p.card.Items[i]
		if it.Amount.Unit != quantity.Each || it.Card != "" || it.Amount.Need().Cmp(manyCounted) < 0 && !p.measuredOnly(it) || p.faultyLine(it.Pos.Line) {
			continue
		}
		figure := quantity.Written(it.Amount)
		grams, known := inGrams(it.Name, it.Amount, p.card.OwnOf(it))
		switch most, ok := p.mostGrams(); {
		case !known:
			p.Warn(p.items[i].at, `"`+it.Name+`" is counted, and what one weighs is not known`, "", `write a unit, like "`+figure+` g", or what one weighs: "each 60 g"`)
		case ok && grams.Cmp(most) > 0:
			p.Err(p.items[i].at, figure+" "+it.Name+" would weigh "+weight(grams)+", and the card makes "+quantity.Show(p.card.Makes, quantity.Prefs{}), "",
				`write a unit, like "`+figure+` g", or correct the number`)
		}
	}
}

// measuredOnly reports whether an item is a food that is weighed or measured and has no
// pieces: flour, milk, lemon juice. The food table has then its density, and not what one
// weighs.
func (p *parser) measuredOnly(it *Item) bool {
	food, known := p.card.Foods.Find(it.Name)
	if !known || it.taken() != "" || !p.card.Foods.Nearest(food.Name).Density().Known() {
		return false
	}
	_, weighs := inGrams(it.Name, it.Amount, p.card.OwnOf(it))
	return !weighs
}

// mostGrams returns the most that the counted pieces of one item can weigh. ok is
// false when the card does not say what it makes.
func (p *parser) mostGrams() (grams quantity.Number, ok bool) {
	c := p.card
	if c.Makes.Unit == nil {
		return grams, false
	}
	if out, ok := inGrams(c.Title, c.Makes, c.Own()); ok {
		return out.Mul(mostOfYield), true
	}
	if c.Makes.Unit.Dim != quantity.Count {
		return grams, false
	}
	return c.Makes.Need().Mul(mostForPlate), true
}
