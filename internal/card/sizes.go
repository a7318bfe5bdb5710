package card

import (
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// percents works out the weights of the items typed in percent: from the items typed
// with a weight and a percentage ("1 kg pork belly (100 %)"), else from the weight of the
// whole formula. It is a problem when the card gives neither, and when the percentages
// are of nothing that the card has.
func (p *parser) percents() {
	c := p.card
	var sum quantity.Number
	for _, it := range c.Items {
		if it.Amount.Unit == nil {
			sum = sum.Add(it.Percent)
		}
	}
	if hundred, ok := p.hundred(); ok {
		p.eachPercent(hundred, quantity.Int(100))
		return
	}
	whole := c.Weighs
	if whole.Unit == nil && c.Makes.Unit != nil && c.Makes.Unit.Dim == quantity.Mass {
		whole = c.Makes
	}
	switch least := quantity.Int(99); { // a formula in percent has an item at 100 %, or adds up to it
	case sum.IsZero():
	case sum.Cmp(least) < 0:
		p.Err(p.makesAt, "the percentages add up to "+quantity.ShowNumber(sum)+" %, and nothing is at 100 %", "",
			`write 100 % beside the weight that they are of, like "1 kg pork belly (100 %)", or add the items that are missing`)
	case whole.Unit == nil:
		p.Err(p.makesAt, "the formula is in percent, but the card does not say of what weight", "", `add "formula: 2 kg" to the front matter: the weight of the whole formula`)
	default:
		c.Weighs = whole
		p.eachPercent(whole, sum)
	}
}

// hundred returns the weight that is 100 %, from the item typed with a weight and the
// highest percentage. An item whose two figures do not fit it is a problem.
func (p *parser) hundred() (whole quantity.Amount, ok bool) {
	gram, _ := quantity.LookupUnit("g")
	both := map[int]quantity.Number{} // grams of the items that have both, by index
	var highest quantity.Number
	for i, it := range p.card.Items {
		if it.Amount.Unit == nil || it.Amount.Unit.Dim != quantity.Mass || it.Percent.IsZero() {
			continue
		}
		both[i], _ = quantity.Convert(it.Amount.Qty, it.Amount.Unit, gram)
		if it.Percent.Cmp(highest) > 0 {
			highest = it.Percent
			whole = quantity.Amount{Qty: both[i].Mul(quantity.Int(100)).Quo(it.Percent), Unit: gram}
		}
	}
	for i, it := range p.card.Items {
		grams, has := both[i]
		if !has || whole.Qty.IsZero() {
			continue
		}
		is := grams.Mul(quantity.Int(100)).Quo(whole.Qty)
		off := is.Sub(it.Percent)
		if off.Sign() < 0 {
			off = off.Neg()
		}
		if off.Cmp(rounding(it.Percent)) > 0 {
			p.errOf(&it, " is "+quantity.ShowPercent(is)+" by its weight, and "+quantity.ShowPercent(it.Percent)+" is typed", "correct one of the two, or leave the percentage out")
		}
	}
	return whole, len(both) > 0
}

// rounding returns how far a typed percentage may be from the exact one: half of its last
// figure, and at least 2 % of it.
func rounding(typed quantity.Number) quantity.Number {
	last := quantity.Frac(1, 2)
	for scaled := typed; !scaled.IsInt() && scaled.Cmp(quantity.Int(1_000_000)) < 0; scaled = scaled.Mul(quantity.Int(10)) {
		last = last.Quo(quantity.Int(10))
	}
	if least := typed.Quo(quantity.Int(50)); last.Cmp(least) < 0 {
		return least
	}
	return last
}

// eachPercent gives each item typed in percent its share of an amount.
func (p *parser) eachPercent(of quantity.Amount, hundred quantity.Number) {
	for i := range p.card.Items {
		it := &p.card.Items[i]
		if it.Amount.Unit == nil && !it.Percent.IsZero() {
			if it.Fixed {
				p.errOf(it, " is fixed and has a percentage, which is a share of the formula", `write its amount, such as "2.5 kg", or leave "fixed" out`)
			}
			it.Amount = of.Scale(it.Percent.Quo(hundred))
			it.Amount.To = quantity.Number{}
		}
	}
}

// errOf adds an error at an item: its name with what is wrong, and what to do.
func (p *parser) errOf(it *Item, wrong, do string) {
	p.Problems = append(p.Problems, document.Problem{File: p.Name, Line: it.Pos.Line, Col: it.Pos.Col, Severity: document.Error, Msg: it.Name + wrong, Do: do})
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
