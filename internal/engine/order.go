package engine

import (
	"fmt"

	"hobside/internal/demand"
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
			line.Need += plus(i) + e.amount(a)
		}
		for _, w := range l.Wants {
			line.For = append(line.For, f.titleOf(w.Card)+": "+e.amount(w.Amount))
		}
		s := &v.Sections[len(v.Sections)-1]
		s.Lines = append(s.Lines, line)
	}
	return v, nil
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
