package engine

import (
	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// amount returns an amount as text in the cook's choice of units, "" for the
// zero Amount.
func (e *Engine) amount(a quantity.Amount) string { return quantity.Show(a, e.show) }

// item writes an amount of one item, with what a cook needs beside it: "170 g",
// "crack 4".
func (e *Engine) item(c *card.Card, it *card.Item, a quantity.Amount) (text, aside string) {
	return larder.Show(it.Name+", "+it.Prep, a, c.OwnOf(it), e.show)
}
