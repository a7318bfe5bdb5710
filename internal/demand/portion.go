package demand

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/quantity"
)

// portion works out how much of a portion plates get of a component, and where
// the component is a plate, makes it one with smaller portions.
//
// A stock that came out short makes less soup, not thinner soup: the formulas in
// between stay as they are, and what shrinks is what goes on the plate of all
// that the stock is in.
func (e *explosion) portion(comp *Component) {
	if len(e.in.Portions) == 0 {
		return
	}
	c := comp.Card
	var smaller []int
	least, set := quantity.Number{}, false
	take := func(f quantity.Number) {
		if !set || f.Cmp(least) < 0 {
			least, set = f, true
		}
	}
	if f, ok := e.in.Portions[c.ID]; ok && f.Sign() > 0 {
		take(f)
	}
	for i, it := range c.Items {
		if it.Card == "" || it.Save != "" {
			continue
		}
		if f, ok := e.share[it.Card]; ok {
			smaller = append(smaller, i)
			take(f)
		}
	}
	switch {
	case !c.IsPlate() && set:
		e.share[c.ID] = least
	case c.IsPlate() && len(smaller) > 0:
		comp.Card = e.withSmaller(c, smaller)
	}
}

// withSmaller is a plate's card with smaller portions of some of its items, in
// the formula and in the steps alike.
func (e *explosion) withSmaller(c *card.Card, items []int) *card.Card {
	out := *c
	out.Items = slices.Clone(c.Items)
	out.Steps = slices.Clone(c.Steps)
	for _, i := range items {
		out.Items[i].Amount = c.Items[i].Amount.Scale(e.share[c.Items[i].Card])
	}
	for s := range out.Steps {
		out.Steps[s].Text = slices.Clone(c.Steps[s].Text)
		for r, run := range out.Steps[s].Text {
			if run.Item > 0 && slices.Contains(items, run.Item-1) && run.Part.Unit != nil {
				out.Steps[s].Text[r].Part = run.Part.Scale(e.share[c.Items[run.Item-1].Card])
			}
		}
	}
	return &out
}
