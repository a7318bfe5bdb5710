package card

import (
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// percents works out the weights of a formula in percent, from the weight of the
// whole formula. It is a problem when the card does not give that weight.
func (p *parser) percents() {
	c := p.card
	var sum quantity.Number
	for _, it := range c.Items {
		if it.Amount.Unit == nil {
			sum = sum.Add(it.Percent)
		}
	}
	if sum.IsZero() {
		return
	}
	whole := c.Weighs
	if whole.Unit == nil && c.Makes.Unit != nil && c.Makes.Unit.Dim == quantity.Mass {
		whole = c.Makes
	}
	if whole.Unit == nil {
		p.Err(p.makesAt, "the formula is in percent, but the card does not say of what weight", "", `add "formula: 2 kg" to the front matter: the weight of the whole formula`)
		return
	}
	c.Weighs = whole
	for i := range c.Items {
		it := &c.Items[i]
		if it.Amount.Unit == nil && !it.Percent.IsZero() {
			if it.Fixed {
				p.Problems = append(p.Problems, document.Problem{File: p.Name, Line: it.Pos.Line, Col: it.Pos.Col, Severity: document.Error,
					Msg: it.Name + " is fixed and has a percentage, which is a share of the formula", Do: `write its amount, such as "2.5 kg", or leave "fixed" out`})
			}
			it.Amount = whole.Scale(it.Percent.Quo(sum))
			it.Amount.To = quantity.Number{}
		}
	}
}

// sizes adds a problem for each size in the front matter that can't be compared
// with what the card makes, and for a smallest batch larger than the largest.
func (p *parser) sizes() {
	c := p.card
	if c.Makes.Unit == nil {
		return
	}
	for _, f := range p.Front {
		var a quantity.Amount
		switch f.Word {
		case "smallest":
			a = c.Smallest
		case "largest":
			a = c.Largest
		case "whole":
			a = c.Whole
		case "portion":
			a = c.Portion
		default:
			continue
		}
		if a.Unit != nil && !p.meets(a.Unit, c.Makes.Unit) {
			p.Err(f.ValueAt, `"`+f.Word+`: `+f.Value+`" can't be compared with what the card makes`, "", "write it in the unit of makes")
		}
	}
	if c.Smallest.Unit != nil && c.Largest.Unit != nil {
		if n, ok := quantity.Convert(c.Smallest.Qty, c.Smallest.Unit, c.Largest.Unit); ok && n.Cmp(c.Largest.Qty) > 0 {
			for _, f := range p.Front {
				if f.Word == "smallest" {
					p.Err(f.ValueAt, "the smallest batch is larger than the largest", "", "swap the two")
				}
			}
		}
	}
}

// meets reports whether amounts in the two units can be compared for what this
// card makes: they are of one kind, or the weight of one piece or litre is known.
func (p *parser) meets(a, b *quantity.Unit) bool {
	if _, ok := quantity.Convert(quantity.Int(1), a, b); ok {
		return true
	}
	kinds := [2]quantity.Dimension{min(a.Dim, b.Dim), max(a.Dim, b.Dim)}
	switch kinds {
	case [2]quantity.Dimension{quantity.Count, quantity.Mass}:
		return p.card.Each.Unit != nil
	case [2]quantity.Dimension{quantity.Mass, quantity.Volume}:
		return true // the larder may know its density
	}
	return false
}
