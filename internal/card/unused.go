package card

import "hobside/internal/quantity"

// unused warns of items that no step names.
func (p *parser) unused() {
	if len(p.card.Steps) == 0 {
		return
	}
	for i, n := range p.items {
		if !n.used {
			p.Warn(n.at, `no step names "`+p.card.Items[i].Name+`"`, "", "write it in bold in the step that uses it")
		}
	}
}

// overused adds a problem for items of which the steps of a way use more than the
// formula has.
func (p *parser) overused() {
	c := p.card
	parts := false
	for _, b := range p.bolds {
		r := c.Steps[b.step].Text[b.run]
		if r.Item == 0 {
			continue
		}
		parts = parts || r.Part.Unit != nil || !r.Share.IsZero()
		whole := c.Items[r.Item-1].Amount
		if r.Part.Unit == nil || whole.Unit == nil {
			continue
		}
		if _, ok := quantity.Convert(r.Part.Qty, r.Part.Unit, whole.Unit); !ok {
			p.Warn(b.at, `a part of "`+c.Items[r.Item-1].Name+`" in `+r.Part.Unit.Plural+", where the formula has "+whole.Unit.Plural+": what is left can't be worked out", "", "write both in one unit")
		}
	}
	if !parts {
		return
	}
	told := map[int]bool{}
	for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
		_, over := c.Uses(way, quantity.Int(1))
		for i := len(p.bolds) - 1; i >= 0; i-- {
			b := p.bolds[i]
			r := c.Steps[b.step].Text[b.run]
			s := c.Steps[b.step]
			n, isOver := over[r.Item]
			if r.Item == 0 || !isOver || told[r.Item] || s.Way != 0 && s.Way != way || r.Part.Unit == nil && r.Share.IsZero() {
				continue
			}
			told[r.Item] = true
			it := c.Items[r.Item-1]
			p.Err(b.at, "the steps use "+shown(it.Amount.Qty.Add(n), it.Amount.Unit)+` of "`+it.Name+`", the formula has `+shown(it.Amount.Qty, it.Amount.Unit),
				"", "put more in the formula or less in the steps")
		}
	}
}

func shown(n quantity.Number, u *quantity.Unit) string {
	return quantity.Show(quantity.Amount{Qty: n, Unit: u}, quantity.Prefs{Scale: quantity.Frac(1, 10)})
}
