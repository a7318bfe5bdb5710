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

// scaleUnit is the unit in which a cook weighs or measures an amount, to ask
// for it: "kg", "ml", "lb", "piece".
func (e *Engine) scaleUnit(a quantity.Amount) string {
	system := e.show.System
	if e.show.AsTyped {
		system = a.Unit.System
	}
	base := a.Qty.Mul(a.Unit.Factor)
	pick := func(limit int64, small, large string) string {
		if base.Cmp(quantity.Int(limit)) < 0 {
			return small
		}
		return large
	}
	switch {
	case a.Unit.Dim == quantity.Mass && system == quantity.Metric:
		return pick(1000, "g", "kg")
	case a.Unit.Dim == quantity.Mass:
		return pick(453, "oz", "lb") // a pound is 453.6 g
	case a.Unit.Dim == quantity.Volume && system == quantity.Metric:
		return pick(1000, "ml", "L")
	}
	return a.Unit.Symbol
}
