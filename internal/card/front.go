package card

import (
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

var frontWords = []string{"makes", "keeps", "formula", "smallest", "largest", "whole", "margin", "portion", "each", "density", "top up", "contains", "may contain", "without", "apart", "rules", "spares", "tested"}

// front reads the words of a card's front matter.
func (p *parser) front() {
	c := p.card
	p.makesAt = p.Top()
	var had [20]bool
	for _, f := range p.Front {
		word := f.Word
		switch word {
		case "yield", "yields", "make", "serves", "servings", "portions":
			word = "makes"
		case "keep":
			word = "keeps"
		case "spare":
			word = "spares"
		case "contain", "allergens":
			word = "contains"
		case "traces", "traces of":
			word = "may contain"
		case "free from", "free of":
			word = "without"
		}
		for i, w := range frontWords {
			if w == word {
				if had[i] {
					p.Warn(f.At, `"`+f.Word+`" is there twice`, "", "the last one counts; take the other out")
				}
				had[i] = true
			}
		}
		if f.Value == "" {
			p.Err(f.At, `"`+f.Word+`" says nothing`, "", "write its value after the colon, or take the line out")
			continue
		}
		switch word {
		case "makes":
			p.makesAt = f.ValueAt
			c.Makes = p.makes(f)
		case "formula":
			c.Weighs = p.positive(f)
			if u := c.Weighs.Unit; u != nil && u.Dim != quantity.Mass {
				p.Err(f.ValueAt, "a formula in percent is a weight", "", `write it like "formula: 2 kg"`)
				c.Weighs = quantity.Amount{}
			}
		case "smallest":
			c.Smallest = p.positive(f)
		case "largest":
			c.Largest = p.positive(f)
		case "whole":
			c.Whole = p.positive(f)
		case "portion":
			c.Portion = p.positive(f)
		case "each":
			c.Each = p.positive(f)
		case "margin":
			if c.NoMargin = document.IsZero(f.Value); !c.NoMargin {
				c.Margin = p.Share(f)
			}
		case "top up":
			p.topUp(f)
		case "density":
			c.Density = p.density(f)
		case "keeps":
			c.Keeps = append(c.Keeps, p.keeps(f)...)
		case "contains":
			f.Split(func(part string, at int) { p.contains(part, at) })
		case "may contain":
			f.Split(func(part string, at int) { p.contains("may contain "+part, at) })
		case "rules":
			c.Rules = p.Rules(f)
		case "without":
			f.Split(func(part string, at int) { p.without(part, at) })
		case "spares":
			p.spares(f)
		case "tested":
			p.tested(f)
		case "apart":
			c.Apart = append(c.Apart, p.apart(f)...)
		default:
			p.UnknownWord(f, frontWords)
		}
	}
}

// makes reads what the card makes. "serves: 4" is 4 portions.
func (p *parser) makes(f document.Fact) quantity.Amount {
	switch f.Word {
	case "serves", "servings", "portions":
		for _, guests := range [...]string{" people", " persons", " guests", " covers"} {
			f.Value = strings.TrimSuffix(f.Value, guests)
		}
		a := p.positive(f)
		if a.Unit == quantity.Each {
			a.Unit, _ = quantity.LookupUnit("portion")
		}
		return a
	}
	return p.positive(f)
}

// topUp reads "water, up to 10 %". Without a share it is a tenth: more would make
// another dish.
func (p *parser) topUp(f document.Fact) {
	p.card.TopMost = quantity.Frac(1, 10)
	first := true
	f.Split(func(part string, at int) {
		if first {
			first, p.card.TopUp = false, document.Valid(part)
			return
		}
		share := strings.TrimSpace(strings.TrimPrefix(strings.ToLower(part), "up to "))
		n, ok := document.Percent(share)
		if !ok || n.Sign() <= 0 || n.Cmp(quantity.Int(100)) > 0 {
			p.Err(at, `"`+part+`" is not a share to top up by`, "", `write it like "top up: water, up to 10 %"`)
			return
		}
		p.card.TopMost = n.Mul(quantity.Frac(1, 100))
	})
}

// positive reads a value that is one amount above 0 with nothing after it.
func (p *parser) positive(f document.Fact) quantity.Amount {
	if document.IsZero(f.Value) {
		p.Err(f.ValueAt, `"`+f.Word+": "+document.Clip(f.Value)+`" is nothing at all`, "", "write how much it is, or take the line out")
		return quantity.Amount{}
	}
	a, rest, ok := p.Amount(f.Value, f.ValueAt)
	if !ok {
		return quantity.Amount{}
	}
	if a.Unit == nil {
		p.Err(f.ValueAt, `"`+f.Value+`" is not an amount`, "", `write a figure and a unit, like "`+f.Word+`: 1.6 kg"`)
		return quantity.Amount{}
	}
	if rest != "" {
		p.oddUnit(f, a, rest)
		return quantity.Amount{}
	}
	return a
}

// oddUnit adds the problem of words after an amount: most often an unknown unit.
func (p *parser) oddUnit(f document.Fact, a quantity.Amount, rest string) {
	at := f.ValueAt + len(f.Value) - len(rest)
	if a.Unit == quantity.Each {
		first, _, _ := strings.Cut(rest, " ")
		hint, do := quantity.SuggestUnit(first), ""
		if hint == "" {
			do = doUnit
		}
		p.Err(at, `unknown unit "`+first+`"`, hint, do)
		return
	}
	p.Err(at, `"`+rest+`" after an amount`, "", "write the figure and its unit alone")
}

// density reads grams per millilitre: "1.03", "1.03 g/ml".
func (p *parser) density(f document.Fact) quantity.Number {
	n, ok := document.Density(f.Value)
	if !ok {
		p.Err(f.ValueAt, `"`+f.Value+`" is not a density of food`, "", `write grams per millilitre, like "density: 1.03"`)
		return quantity.Number{}
	}
	return n
}
