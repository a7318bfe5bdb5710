package demand

import "hobside/internal/quantity"

// quarter is the least part of one that a list shows.
var quarter = quantity.Frac(1, 4)

// ShowNeed returns what the cards use of a line as text, counts to the quarter.
func (l *Line) ShowNeed(show quantity.Prefs) string {
	out := ""
	for i, a := range l.Need {
		if n := quantity.Round(a.Qty, quarter); a.Unit.Dim == quantity.Count && !n.IsZero() {
			a.Qty = n
		}
		if i > 0 {
			out += " + "
		}
		out += quantity.Show(a, show)
	}
	return out
}

// ShowWants returns the cards' parts of a line as text, in the order of Wants,
// rounded so that they add up to the need of the line.
func (l *Line) ShowWants(show quantity.Prefs) []string {
	amount := func(a quantity.Amount) string { return quantity.Show(a, show) }
	out := make([]string, len(l.Wants))
	parts := make([]quantity.Amount, 0, len(l.Wants))
	for i, w := range l.Wants {
		out[i] = amount(w.Amount)
		if len(l.Need) == 1 {
			if n, ok := quantity.Convert(w.Amount.Qty, w.Amount.Unit, l.Need[0].Unit); ok {
				parts = append(parts, quantity.Amount{Qty: n, Unit: l.Need[0].Unit})
			}
		}
	}
	if len(parts) < len(out) || len(parts) < 2 {
		return out // some by weight and some by count, or a pinch beside them
	}
	if texts, ok := quantity.ShowParts(parts, show); ok {
		return texts
	}
	numbers := make([]quantity.Number, len(parts))
	for i, p := range parts {
		numbers[i] = p.Qty
	}
	for i, n := range quantity.Split(numbers, quarter) {
		if !n.IsZero() { // else the little there is, as it is
			out[i] = amount(quantity.Amount{Qty: n, Unit: parts[i].Unit})
		}
	}
	return out
}

// Currency returns the currency of the kitchen's first price, "" where none
// names one. A kitchen buys in one currency.
func (s Shop) Currency() string {
	for _, p := range s.Prices {
		if p.Currency != "" {
			return p.Currency
		}
	}
	return ""
}
