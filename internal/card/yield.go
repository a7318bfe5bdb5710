package card

import (
	"strings"

	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// heavier is how far a yield may be above what goes in before there is a problem:
// scales and spoons are not that exact.
var heavier = quantity.Frac(102, 100)

var gram, _ = quantity.LookupUnit("g")

// yields compares what a card makes and saves with what goes in. More can't
// come out: then something that the food takes up is not in the formula, or a
// figure is wrong. There is no problem where the weight of anything is unknown.
func (p *parser) yields() {
	c := p.card
	if c.Makes.Unit == nil {
		return
	}
	out, ok := inGrams(c.Title, c.Makes, c.Own())
	if !ok {
		return
	}
	if p.plenty(out) {
		return
	}
	in, ok := p.goesIn()
	if !ok {
		return
	}
	what := "the card makes " + weight(out)
	if out.Cmp(in.Mul(heavier)) <= 0 {
		for _, s := range c.Saves { // what is saved may come from the trimming: then from the weight bought
			if n, ok := inGrams(s.Name, s.Amount, larder.Own{Foods: c.Foods}); ok {
				out = out.Add(n)
				what += ", saves " + weight(n) + " of " + s.Name
			}
		}
		if out.Cmp(in.Mul(heavier)) > 0 {
			in = p.bought()
		}
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

// plenty reports whether the items given by weight are enough for what comes out.
// That is so on most cards, and no other weight need be known.
func (p *parser) plenty(out quantity.Number) bool {
	for _, s := range p.card.Saves {
		n, ok := inGrams(s.Name, s.Amount, larder.Own{Foods: p.card.Foods})
		if !ok {
			return false
		}
		out = out.Add(n)
	}
	var in quantity.Number
	for i := range p.card.Items {
		if a := &p.card.Items[i].Amount; a.Unit != nil && a.Unit.Dim == quantity.Mass {
			in = in.Add(a.Need().Mul(a.Unit.Factor))
		}
	}
	return in.Cmp(out) >= 0
}

// goesIn returns the weight of the formula. ok is false where the weight of an
// item is unknown. Salt and pepper to taste and
// the zest of a fruit weigh nothing here.
func (p *parser) goesIn() (grams quantity.Number, ok bool) {
	for i := range p.card.Items {
		it := &p.card.Items[i]
		if it.Amount.ToTaste {
			if f, known := p.card.Foods.Find(it.Name); known && (f.Is("salt") || f.Is("sea salt") || f.Is("black pepper") || f.Is("white pepper")) {
				continue
			}
		}
		n, ok := inGrams(it.Name, it.Amount, p.card.OwnOf(it))
		if it.taken() == larder.Zest {
			continue
		}
		if !ok {
			return grams, false
		}
		grams = grams.Add(n)
	}
	return grams, grams.Sign() > 0
}

// bought returns the weight of the formula before trimming.
func (p *parser) bought() (grams quantity.Number) {
	for i := range p.card.Items {
		it := &p.card.Items[i]
		n, _ := inGrams(it.Name, it.Amount, p.card.OwnBought(it))
		trim := it.Trim
		if trim.IsZero() {
			trim = p.card.Foods.Nearest(it.Name).Trim().Value
		}
		grams = grams.Add(n.Quo(quantity.Int(1).Sub(trim)))
	}
	return grams
}

// inGrams returns the weight of an amount. ok is false where it is unknown. Most
// amounts are weights, so the larder is asked only for the others.
func inGrams(item string, a quantity.Amount, own larder.Own) (quantity.Number, bool) {
	if a.Unit == nil {
		return quantity.Number{}, false
	}
	if a.Unit.Dim == quantity.Mass {
		return a.Need().Mul(a.Unit.Factor), true
	}
	n, _, err := larder.Convert(item, a.Need(), a.Unit, gram, own)
	return n, err == nil
}

// cooked returns what the larder knows about the formula's foods cooked as the
// steps say, with its source: "cooked like this, frozen peas comes to 89.2 % of …".
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
