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

// percent writes a number of per cent: "68 %".
func (e *Engine) percent(p quantity.Number) string { return quantity.ShowNumber(p) + " %" }

// share writes a share of one in per cent.
func (e *Engine) share(n quantity.Number) string { return e.percent(n.Mul(quantity.Int(100))) }
