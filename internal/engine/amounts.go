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
	return larder.Show(it.Name, a, larder.Own{Each: it.Each}, e.show)
}

func (e *Engine) percent(p quantity.Number) string {
	return quantity.ShowNumber(p) + " %"
}

// round rounds the parts of one item together, so that they add up to the
// rounded whole. ok is false when they are not parts of one measure.
func (e *Engine) round(parts []quantity.Amount) (out []quantity.Amount, ok bool) {
	if len(parts) < 2 {
		return nil, false
	}
	unit := parts[0].Unit
	numbers := make([]quantity.Number, len(parts))
	for i, p := range parts {
		if p.Unit != unit || unit == nil || unit.Dim != quantity.Mass || !p.To.IsZero() {
			return nil, false
		}
		numbers[i] = p.Qty.Mul(unit.Factor) // grams
	}
	numbers = quantity.Split(numbers, e.show.Scale)
	out = make([]quantity.Amount, len(parts))
	for i, n := range numbers {
		out[i] = quantity.Amount{Qty: n.Quo(unit.Factor), Unit: unit}
	}
	return out, true
}

func celsius(c float64) string { return strconv.FormatFloat(c, 'f', -1, 64) + " °C" }

// fahrenheit rounds to whole degrees: no probe or dial in a kitchen shows less.
func fahrenheit(c float64) string {
	return strconv.FormatFloat(math.Round(c*9/5+32), 'f', -1, 64) + " °F"
}
