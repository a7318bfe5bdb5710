package engine

import (
	"strconv"

	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
)

// means writes what follows from a component's batches, nil while everything is
// as planned.
func (e *Engine) means(f *followed, comp *demand.Component) *MeansView {
	m := f.Worked().Consequence(comp)
	doubt, doubted := f.Doubt(comp)
	if m == nil && !doubted {
		return nil
	}
	v := &MeansView{Gets: []GetView{}, Choices: []ChoiceView{}, Covers: f.Worked().Demand.Covers}
	if doubted {
		v.Doubt = e.amount(doubt.Got) + " where " + e.amount(doubt.Planned) +
			" was planned: it is kept, and does not count yet. If it is right enter it once more, else weigh again"
	}
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
		g := GetView{To: f.Worked().GoesTo(u), Planned: text(u.Amount)}
		if g.Now = text(m.Gets[i]); together {
			g.Now = shown[i]
		}
		v.Gets = append(v.Gets, g)
	}
	for _, c := range f.Choices(comp, m) {
		v.Choices = append(v.Choices, ChoiceView{Text: e.choice(f, comp, c), Kind: c.Kind, On: c.On, Done: c.Done, Number: c.Number, Amount: c.Amount})
	}
	return v
}

// choice writes a way out of a shortage as the button that takes it.
func (e *Engine) choice(f *followed, comp *demand.Component, c dinner.Choice) string {
	switch c.Kind {
	case dinner.KindCovers:
		return strconv.Itoa(c.Number) + " covers, whole portions"
	case dinner.KindPortion:
		return strconv.Itoa(f.Worked().Demand.Covers) + " covers, " + e.percent(c.Amount.Qty.Mul(quantity.Int(100))) + " of a portion"
	case dinner.KindAgain:
		return "Make another " + e.amount(c.More)
	}
	return "Top up with " + e.amount(c.More) + " of " + comp.Card.TopUp
}
