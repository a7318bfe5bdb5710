package engine

import (
	"fmt"

	"hobside/internal/demand"
	"hobside/internal/quantity"
	"hobside/internal/sitting"
)

// order writes the list to buy of an open sitting.
func (e *Engine) order(in SittingCall) (*OrderView, error) {
	f, ok := e.sittings[in.Sitting]
	if !ok {
		return nil, fmt.Errorf("sitting %q is not open in the engine: open it first", in.Sitting)
	}
	v := &OrderView{Sections: []OrderSection{}}
	if f.demand == nil {
		return v, nil
	}
	for _, l := range demand.Order(f.demand) {
		if n := len(v.Sections); n == 0 || v.Sections[n-1].Name != l.Section {
			v.Sections = append(v.Sections, OrderSection{Name: l.Section, Lines: []OrderLine{}})
		}
		line := OrderLine{Key: sitting.OrderKey(l.Slug), Name: l.Name, LastDay: l.LastDay, Note: l.Note, For: []string{}}
		for i, a := range l.Buy {
			line.Buy += plus(i) + e.amount(a)
		}
		for i, a := range l.Need {
			if n := quantity.Round(a.Qty, quarter); a.Unit.Dim == quantity.Count && !n.IsZero() {
				a.Qty = n
			}
			line.Need += plus(i) + e.amount(a)
		}
		wants := e.wants(l)
		for i, w := range l.Wants {
			line.For = append(line.For, f.titleOf(w.Card)+": "+wants[i])
		}
		s := &v.Sections[len(v.Sections)-1]
		s.Lines = append(s.Lines, line)
	}
	return v, nil
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

func (f *followed) titleOf(id string) string {
	if c := f.demand.ByCard[id]; c != nil && c.Card.Title != "" {
		return c.Card.Title
	}
	return id
}

func plus(i int) string {
	if i == 0 {
		return ""
	}
	return " + "
}
