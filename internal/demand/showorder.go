package demand

import (
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// quarter is the least part of one that a list shows.
var quarter = quantity.Frac(1, 4)

// ShowNeed returns what the cards use of a line as text, counts to the quarter, and
// never rounded down.
func (l *Line) ShowNeed(show quantity.Prefs) string {
	show.Up, show.Tight = true, larder.Exacting(l.Name)
	out := ""
	for i, a := range l.Need {
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
	show.Up, show.Tight = true, larder.Exacting(l.Name)
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
	for i, n := range upTo(numbers) {
		if !n.IsZero() { // else the little there is, as it is
			out[i] = amount(quantity.Amount{Qty: n, Unit: parts[i].Unit})
		}
	}
	return out
}

// upTo returns counts rounded to quarters that add up to their sum rounded up, as the
// need of a line is.
func upTo(counts []quantity.Number) []quantity.Number {
	var whole, shown quantity.Number
	out := quantity.Split(counts, quarter)
	most := 0 // the count that was rounded down furthest
	for i, n := range out {
		whole, shown = whole.Add(counts[i]), shown.Add(n)
		if counts[i].Sub(n).Cmp(counts[most].Sub(out[most])) > 0 {
			most = i
		}
	}
	if target := whole.Quo(quarter).Ceil().Mul(quarter); shown.Cmp(target) < 0 {
		out[most] = out[most].Add(target.Sub(shown))
	}
	return out
}
