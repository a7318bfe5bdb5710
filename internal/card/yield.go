package card

import (
	"strings"

	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// heavier is by how much a yield may be above what goes in before it is found
// fault with: scales and spoons are not that exact.
var heavier = quantity.Frac(102, 100)

var gram, _ = quantity.LookupUnit("g")

// yields compares what a card makes and saves with what goes in. More can't
// come out; where it seems to, something the food takes up is not in the formula,
// or a figure is wrong. It keeps quiet where the weight of anything is not known.
func (p *parser) yields() {
	c := p.card
	in, bought, ok := p.goesIn()
	if !ok || c.Makes.Unit == nil {
		return
	}
	out, _, err := larder.Convert(c.Title, c.Makes.Need(), c.Makes.Unit, gram, larder.Own{Each: c.Each, Density: c.Density})
	if err != nil {
		return
	}
	what := "the card makes " + weight(out)
	if out.Cmp(in.Mul(heavier)) <= 0 {
		for _, s := range c.Saves { // what is saved may come from the trimming: then from the weight bought
			if n, _, err := larder.Convert(s.Name, s.Amount.Need(), s.Amount.Unit, gram, larder.Own{}); err == nil {
				out = out.Add(n)
				what += ", saves " + weight(n) + " of " + s.Name
			}
		}
		in = bought
	}
	if out.Cmp(in.Mul(heavier)) <= 0 {
		return
	}
	share := quantity.ShowNumber(out.Mul(quantity.Int(100)).Quo(in))
	do := `put what it takes up, such as water, in the formula, or correct "makes"`
	if told := p.cooked(); told != "" {
		do += "; " + told
	}
	p.Warn(p.makesAt, what+", and "+weight(in)+" goes in: a yield of "+share+" %", "", do)
}

// goesIn is the weight of the formula, as it goes in and as it is bought; ok is
// false where something in it has none that is known. Salt and pepper to taste
// weigh nothing here.
func (p *parser) goesIn() (grams, bought quantity.Number, ok bool) {
	for _, it := range p.card.Items {
		food, known := larder.Find(it.Name)
		if it.Amount.ToTaste && known && (food.Slug == "salt" || food.Slug == "black-pepper") {
			continue
		}
		if it.Amount.Unit == nil {
			return grams, bought, false
		}
		n, _, err := larder.Convert(it.Name, it.Amount.Need(), it.Amount.Unit, gram, larder.Own{Each: it.Each})
		if err != nil {
			return grams, bought, false
		}
		trim := it.Trim
		if trim.IsZero() && known {
			trim = food.Trim
		}
		grams = grams.Add(n)
		bought = bought.Add(n.Quo(quantity.Int(1).Sub(trim)))
	}
	return grams, bought, grams.Sign() > 0
}

// cooked tells what the larder knows of the formula's foods cooked as the steps
// say, with its source: "cooked like this, frozen peas comes to 89.2 % of …".
func (p *parser) cooked() string {
	var method strings.Builder
	for _, s := range p.card.Steps {
		for _, r := range s.Text {
			method.WriteString(r.Text)
		}
	}
	for _, it := range p.card.Items {
		if c, ok := larder.CookedYield(it.Name, method.String()); ok {
			return "cooked like this, " + it.Name + " comes to " + c.String()
		}
	}
	return ""
}

func weight(grams quantity.Number) string {
	return quantity.Show(quantity.Amount{Qty: grams, Unit: gram}, quantity.Prefs{})
}
