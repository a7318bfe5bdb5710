package engine

import (
	"fmt"

	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// order writes the list to buy of an open dinner.
func (e *Engine) order(in DinnerCall) (*OrderView, error) {
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	v := &OrderView{Sections: []OrderSection{}}
	if f.Worked() == nil {
		return v, nil
	}
	shop := f.Shop()
	lines := demand.Order(f.Worked().Demand, shop)
	for _, l := range lines {
		if n := len(v.Sections); n == 0 || v.Sections[n-1].Name != l.Section {
			v.Sections = append(v.Sections, OrderSection{Name: l.Section, Lines: []OrderLine{}})
		}
		s := &v.Sections[len(v.Sections)-1]
		s.Lines = append(s.Lines, e.orderLine(f, l, currency(shop)))
	}
	if len(shop.Prices) > 0 {
		sum, unpriced := demand.Cost(lines)
		v.Cost, v.Unpriced = money(sum, currency(shop)), unpriced
		if f.Worked().Demand.Covers > 0 {
			v.PerCover = money(sum.Quo(quantity.Int(int64(f.Worked().Demand.Covers))), currency(shop))
		}
	}
	return v, nil
}

func (e *Engine) orderLine(f *followed, l demand.Line, currency string) OrderLine {
	line := OrderLine{Key: dinner.OrderKey(l.Slug), Name: l.Name, LastDay: l.LastDay, Note: l.Note, For: []string{}, Asked: []quantity.Amount{}}
	for i, p := range l.Buy {
		text := e.amount(p.Amount)
		if p.Packs > 0 {
			text = fmt.Sprint(p.Packs) + " × " + e.amount(p.Pack)
		}
		line.Buy += plus(i) + text
		line.Asked = append(line.Asked, p.Amount)
	}
	for i, a := range l.Need {
		if n := quantity.Round(a.Qty, quarter); a.Unit.Dim == quantity.Count && !n.IsZero() {
			a.Qty = n
		}
		line.Need += plus(i) + e.amount(a)
	}
	if l.Have.Unit != nil {
		line.Have = e.amount(l.Have)
		if len(l.Buy) == 0 {
			line.Buy = "enough there"
		}
	}
	if len(l.Need) > 0 {
		line.Unit = l.Need[0].Unit.Symbol
	}
	if l.Priced {
		line.Cost = money(l.Cost, currency)
	}
	wants := e.wants(l)
	for i, w := range l.Wants {
		text := f.Worked().Title(w.Card)
		if wants[i] != "" {
			text += ": " + wants[i]
		}
		line.For = append(line.For, text)
	}
	return line
}

// quarter is the least part of one that a list shows.
var quarter = quantity.Frac(1, 4)

// wants writes the cards' parts of a line so that they add up to its need.
func (e *Engine) wants(l demand.Line) []string {
	out := make([]string, len(l.Wants))
	parts := make([]quantity.Amount, 0, len(l.Wants))
	for i, w := range l.Wants {
		out[i] = e.amount(w.Amount)
		if len(l.Need) == 1 {
			if n, ok := quantity.Convert(w.Amount.Qty, w.Amount.Unit, l.Need[0].Unit); ok {
				parts = append(parts, quantity.Amount{Qty: n, Unit: l.Need[0].Unit})
			}
		}
	}
	if len(parts) < len(out) || len(parts) < 2 {
		return out // some by weight and some by count, or a pinch beside them
	}
	if texts, ok := quantity.ShowParts(parts, e.show); ok {
		return texts
	}
	numbers := make([]quantity.Number, len(parts))
	for i, p := range parts {
		numbers[i] = p.Qty
	}
	for i, n := range quantity.Split(numbers, quarter) {
		if !n.IsZero() { // else the little there is, as it is
			out[i] = e.amount(quantity.Amount{Qty: n, Unit: parts[i].Unit})
		}
	}
	return out
}

// currency is the one the kitchen's first price is in; nobody buys in two.
func currency(s demand.Shop) string {
	for _, p := range s.Prices {
		if p.Currency != "" {
			return p.Currency
		}
	}
	return ""
}

// money writes a sum: a sign before the figure, a word after it.
func money(n quantity.Number, currency string) string {
	text := n.Decimal(2)
	switch {
	case currency == "":
		return text
	case currency[0] >= 'A' && currency[0] <= 'z':
		return text + " " + currency
	}
	return currency + text
}

func plus(i int) string {
	if i == 0 {
		return ""
	}
	return " + "
}
