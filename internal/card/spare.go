package card

import (
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// Spares are what a card makes more than is eaten: for the plate that falls, and the guest
// who comes with a friend.
type Spares struct {
	Amount quantity.Amount // "spares: 2", in the unit the card makes
	Share  quantity.Number // "spare: 10 %", as a fraction of the need
}

// Of returns how much more than a need there is, both in the unit the card makes: whole
// ones of what is counted, and none where nothing is needed.
func (s Spares) Of(c *Card, need quantity.Number) quantity.Number {
	if need.Sign() <= 0 {
		return quantity.Number{}
	}
	out := need.Mul(s.Share)
	if s.Amount.Unit != nil {
		out = out.Add(s.Amount.Need())
	}
	if c.Makes.Unit != nil && c.Makes.Unit.Dim != quantity.Mass && c.Makes.Unit.Dim != quantity.Volume {
		out = out.Ceil()
	}
	return out
}

// String returns the spares as an author types them: "2 plates", "10 %".
func (s Spares) String() string {
	if !s.Share.IsZero() {
		return percent(s.Share)
	}
	return quantity.Show(s.Amount, quantity.Prefs{AsTyped: true})
}

// spares reads "2", "2 plates", "200 g" or "10 %".
func (p *parser) spares(f document.Fact) {
	if strings.HasSuffix(f.Value, "%") {
		p.card.Spares.Share = p.Share(f)
		return
	}
	p.card.Spares.Amount = p.positive(f)
	p.sparesAt = f.ValueAt
}

// spareUnit puts the spares in the unit that the card makes, once that is known.
func (p *parser) spareUnit() {
	c, a := p.card, &p.card.Spares.Amount
	if a.Unit == nil || c.Makes.Unit == nil {
		*a = quantity.Amount{}
		return
	}
	counted := c.Makes.Unit.Dim != quantity.Mass && c.Makes.Unit.Dim != quantity.Volume
	if a.Unit == quantity.Each && counted {
		a.Unit = c.Makes.Unit
		return
	}
	if n, ok := quantity.Convert(a.Need(), a.Unit, c.Makes.Unit); ok {
		*a = quantity.Amount{Qty: n, Unit: c.Makes.Unit}
		return
	}
	*a = quantity.Amount{}
	p.Err(p.sparesAt, "the spares are not in "+c.Makes.Unit.Plural+", which the card makes", "", `write how much more to make in that unit, or a share: "spares: 10 %"`)
}

// A Tested is what the card was tested at: a date, a size, and what else the tester says.
type Tested struct {
	Date  document.When
	Size  quantity.Amount // what was made, "24 plates"; zero when not said
	Words []string        // the rest: "by second cook", "gave 2.4 kg"
}

// String returns it as an author types it.
func (t Tested) String() string {
	if t.Date.IsZero() {
		return ""
	}
	day, _, _ := strings.Cut(t.Date.String(), "T")
	out := []string{day}
	if t.Size.Unit != nil {
		out = append(out, quantity.Show(t.Size, quantity.Prefs{AsTyped: true}))
	}
	return strings.Join(append(out, t.Words...), ", ")
}

// tested reads "2027-05-02, 24 plates, by the second cook".
func (p *parser) tested(f document.Fact) {
	var t Tested
	first := true
	f.Split(func(part string, at int) {
		if first {
			first = false
			date, ok := document.ParseDate(part)
			if !ok {
				p.Err(at, `"`+part+`" is not a date`, "", `write it like "tested: 2027-05-02, 24 plates, by the second cook"`)
				return
			}
			t.Date = date
			return
		}
		if t.Size.Unit == nil && document.BeginsWithAmount(part) {
			a, rest, ok := p.Amount(part, at)
			switch {
			case !ok:
				return
			case a.Unit == nil || rest != "":
				p.Err(at, `"`+part+`" is not what was made in the test`, "", `write a figure and a unit, like "24 plates"; words begin with a word: "by the second cook"`)
				return
			}
			t.Size = a
			return
		}
		t.Words = append(t.Words, document.Valid(part))
	})
	if !t.Date.IsZero() {
		p.card.Tested = t
	}
}

// TestedFor returns what a cook is told of the tests who makes so much of the card, in the
// unit it makes: the test as typed, and where that was at less than half or more than twice
// the size, to look at times and pans. It is "" for a card without a test.
func (c *Card) TestedFor(makes quantity.Number) string {
	out := c.Tested.String()
	size, ok := quantity.Convert(c.Tested.Size.Need(), c.Tested.Size.Unit, c.Makes.Unit)
	if out == "" || !ok || size.Sign() <= 0 || makes.Sign() <= 0 {
		return out
	}
	const look = ": look at pans, times and seasoning"
	switch two := quantity.Int(2); {
	case makes.Cmp(size.Mul(two)) > 0:
		return out + ". This is more than twice as much" + look
	case size.Cmp(makes.Mul(two)) > 0:
		return out + ". This is less than half of that" + look
	}
	return out
}
