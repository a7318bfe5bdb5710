package engine

import (
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// means writes down what it means that a component's batches are what they are,
// nil while everything is as planned.
func (e *Engine) means(f *followed, in demand.Input, comp *demand.Component) *MeansView {
	var m *demand.Consequence
	for i := range f.means {
		if f.means[i].Card == comp.Card.ID {
			m = &f.means[i]
		}
	}
	doubt := e.doubt(f, comp)
	if m == nil && doubt == "" {
		return nil
	}
	v := &MeansView{Doubt: doubt, Gets: []GetView{}, Choices: []ChoiceView{}, Covers: f.demand.Covers}
	if m == nil {
		return v
	}
	text := func(n quantity.Number) string { return e.amount(quantity.Amount{Qty: n, Unit: comp.Unit}) }
	v.Planned, v.Made, v.Need, v.Covers = text(m.Planned), text(m.Made), text(m.Need), m.Covers
	if m.Short.IsZero() {
		if comp.Left.Sign() > 0 {
			v.Spare = text(comp.Left)
		}
		return v
	}
	v.Short = text(m.Short)
	amounts := make([]quantity.Amount, len(m.Gets))
	for i, n := range m.Gets {
		amounts[i] = quantity.Amount{Qty: n, Unit: comp.Unit}
	}
	shown, together := quantity.ShowParts(amounts, e.show)
	for i, u := range comp.Uses {
		g := GetView{To: e.goesTo(in, u), Planned: text(u.Amount)}
		if g.Now = text(m.Gets[i]); together {
			g.Now = shown[i]
		}
		v.Gets = append(v.Gets, g)
	}
	e.choices(f, comp, m, v)
	return v
}

// choices are the ways out of a shortage, each with its numbers and the event
// that takes it.
func (e *Engine) choices(f *followed, comp *demand.Component, m *demand.Consequence, v *MeansView) {
	text := func(n quantity.Number) string { return e.amount(quantity.Amount{Qty: n, Unit: comp.Unit}) }
	if m.Covers > 0 && m.Covers < f.demand.Covers {
		v.Choices = append(v.Choices, ChoiceView{Text: itoa(m.Covers) + " covers, whole portions", Kind: dinner.KindCovers, Number: m.Covers})
	}
	if m.Portion.Sign() > 0 {
		v.Choices = append(v.Choices, ChoiceView{
			Text: itoa(f.demand.Covers) + " covers, " + e.percent(m.Portion.Mul(quantity.Int(100))) + " of a portion",
			Kind: dinner.KindPortion, On: comp.Card.ID, Amount: &quantity.Amount{Qty: m.Portion},
		})
	}
	if m.Again.Sign() > 0 && !f.state.Again[comp.Card.ID] {
		v.Choices = append(v.Choices, ChoiceView{Text: "Make another " + text(m.Again), Kind: dinner.KindAgain, On: comp.Card.ID, Done: true})
	}
	if m.TopUp.Sign() > 0 {
		for i := len(comp.Batches) - 1; i >= 0; i-- {
			if batch := comp.Batches[i]; batch.Measured {
				v.Choices = append(v.Choices, ChoiceView{
					Text: "Top up with " + text(m.TopUp) + " of " + comp.Card.TopUp,
					Kind: dinner.KindMeasure, On: dinner.BatchKey(comp.Card.ID, i+1),
					Amount: &quantity.Amount{Qty: batch.Got.Add(m.TopUp), Unit: comp.Unit},
				})
				break
			}
		}
	}
}

// doubt asks about a weight that is kept but does not count yet.
func (e *Engine) doubt(f *followed, comp *demand.Component) string {
	c := comp.Card
	for _, key := range sortedKeys(f.state.Measures) {
		k, ok := dinner.ParseKey(key)
		if !ok || k.Card != c.ID || k.Step > 0 && !yields(c, k.Step) || k.Batch > len(comp.Batches) {
			continue
		}
		all := f.state.Measures[key]
		last, factor := all[len(all)-1].Amount, comp.Batches[k.Batch-1].Factor
		if odd(c, factor, last) && (len(all) == 1 || !same(last, all[len(all)-2].Amount)) {
			return e.amount(last) + " where " + e.amount(c.Makes.Scale(factor)) +
				" was planned: it is kept, and does not count yet. If it is right enter it once more, else weigh again"
		}
	}
	return ""
}

// goesTo names where a use goes.
func (e *Engine) goesTo(in demand.Input, u demand.Use) string {
	if user := in.Cards[u.By]; user != nil {
		return user.Title
	}
	if u.Course > 0 && u.Course <= len(in.Menu.Courses) {
		return in.Menu.Courses[u.Course-1].Name
	}
	return "the table"
}
