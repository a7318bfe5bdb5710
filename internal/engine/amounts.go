package engine

import (
	"math"
	"strconv"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// amount writes an amount in the cook's choice of units.
func (e *Engine) amount(a quantity.Amount) string { return quantity.Show(a, e.show) }

// item writes an amount of one food, with what a cook needs beside it: "170 g",
// "crack 4".
func (e *Engine) item(it card.Item, a quantity.Amount) (text, aside string) {
	return larder.Show(it.Name+", "+it.Prep, a, larder.Own{Each: it.Each}, e.show)
}

func (e *Engine) percent(p quantity.Number) string {
	return quantity.ShowNumber(p) + " %"
}

func celsius(c float64) string { return strconv.FormatFloat(c, 'f', -1, 64) + " °C" }

// fahrenheit rounds to whole degrees: no probe or dial in a kitchen shows less.
func fahrenheit(c float64) string {
	return strconv.FormatFloat(math.Round(quantity.Fahrenheit(c)), 'f', -1, 64) + " °F"
}
