package engine

import (
	"fmt"

	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// order writes the order list of an open dinner.
func (e *Engine) order(in DinnerCall) (*OrderView, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
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
		s.Lines = append(s.Lines, e.orderLine(f, l, shop.Currency()))
	}
	if len(shop.Prices) > 0 {
		sum, unpriced := demand.Cost(lines)
		v.Cost, v.Unpriced = money(sum, shop.Currency()), unpriced
		if f.Worked().Demand.Covers > 0 {
			v.PerCover = money(sum.Quo(quantity.Int(int64(f.Worked().Demand.Covers))), shop.Currency())
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
		if n := quantity.Round(a.Qty, demand.Quarter); a.Unit.Dim == quantity.Count && !n.IsZero() {
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
	wants := l.ShowWants(e.show)
	for i, w := range l.Wants {
		text := f.Worked().Title(w.Card)
		if wants[i] != "" {
			text += ": " + wants[i]
		}
		line.For = append(line.For, text)
	}
	return line
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
