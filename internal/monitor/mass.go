package monitor

import (
	"strconv"

	"hobside/internal/card"
	"hobside/internal/quantity"
)

var (
	kilogram, _ = quantity.LookupUnit("kg")
	litre, _    = quantity.LookupUnit("L")
)

// float returns a number near enough for a forecast. It goes by way of text: the
// exact way divides large integers, and every phone would fetch the code for that.
func float(n quantity.Number) float64 {
	f, _ := strconv.ParseFloat(n.Decimal(6), 64)
	return f
}

// kilograms returns the mass of an amount of what a card makes, 0 where it is not
// known. What has no density of its own on the card is taken for water.
func kilograms(a quantity.Amount, c *card.Card) float64 {
	if a.Unit == nil {
		return 0
	}
	if n, ok := quantity.Convert(a.Need(), a.Unit, kilogram); ok {
		return float(n)
	}
	if n, ok := quantity.Convert(a.Need(), a.Unit, litre); ok {
		density := 1.0
		if c.Density.Sign() > 0 {
			density = float(c.Density)
		}
		return float(n) * density
	}
	if c.Each.Unit != nil && a.Unit == c.Makes.Unit {
		if n, ok := quantity.Convert(c.Each.Need(), c.Each.Unit, kilogram); ok {
			return float(n.Mul(a.Need()))
		}
	}
	return 0
}

// batchMass returns the mass of the watched batch in kilograms, as weighed or else
// as planned; 0 where it is not known.
func (w *watching) batchMass() float64 {
	comp := w.worked.Demand.ByCard[w.card.ID]
	m := comp.Batches[w.batch-1]
	amount := m.Amount
	if m.Measured {
		amount = m.Got
	}
	return kilograms(quantity.Amount{Qty: amount, Unit: comp.Unit}, w.card)
}
