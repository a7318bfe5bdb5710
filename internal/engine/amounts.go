package engine

import (
	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// amount writes an amount in the cook's choice of units.
func (e *Engine) amount(a quantity.Amount) string { return quantity.Show(a, e.show) }

// item writes an amount of one item, with what a cook needs beside it: "170 g",
// "crack 4".
func (e *Engine) item(it card.Item, a quantity.Amount) (text, aside string) {
	return larder.Show(it.Name+", "+it.Prep, a, larder.Own{Each: it.Each}, e.show)
}
