package demand

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/quantity"
)

// portion works out the portion factor of a component and, for a plate, replaces
// its card by one with smaller portions.
//
// A short stock makes less soup, not thinner soup: formulas in between stay as they
// are, and the plates get less of everything that the stock is in.
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

// withSmaller returns a plate's card with smaller portions of some items, in the
// formula and in the steps.
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
