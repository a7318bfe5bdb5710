package demand

import (
	"slices"

	"hobside/internal/card"
)

// inPot returns, by item of a card counted from 1, what was in when a by-product was set
// aside: the items of the steps up to the one that sets it aside. It is nil where the
// card names no such step, and the by-product then has of everything. An item that no
// step names is taken to be in.
func inPot(c *card.Card, save string) map[int]bool {
	if save == "" {
		return nil
	}
	last := slices.IndexFunc(c.Steps, func(s card.Step) bool { return slices.Contains(s.Saves, save) })
	if last < 0 {
		return nil
	}
	later := map[int]bool{}
	for i := range c.Steps {
		for _, r := range c.Steps[i].Text {
			if r.Item > 0 && i > last {
				if _, in := later[r.Item]; !in {
					later[r.Item] = true
				}
			} else if r.Item > 0 {
				later[r.Item] = false
			}
		}
	}
	in := map[int]bool{}
	for i := range c.Items {
		in[i+1] = !later[i+1]
	}
	return in
}
