package dinner

import (
	"hobside/internal/demand"
	"hobside/internal/quantity"
)

// A Choice is one way out of a shortage. To take it, send an event of this kind,
// on this key, with these fields.
type Choice struct {
	Text   string           `json:"text"` // of the button that takes it; set by [Live.Means]
	Kind   Kind             `json:"kind"`
	On     string           `json:"on"`
	Done   bool             `json:"done,omitempty"`
	Number int              `json:"number,omitempty"`
	Amount *quantity.Amount `json:"amount,omitempty"`
	More   quantity.Amount  `json:"-"` // what is made or topped up; zero for fewer covers and smaller portions
}

// Consequence returns what follows from a component's batches, nil while everything
// is as planned.
func (w *Worked) Consequence(comp *demand.Component) *demand.Consequence {
	for i := range w.Consequences {
		if w.Consequences[i].Card == comp.Card.ID {
			return &w.Consequences[i]
		}
	}
	return nil
}

// Choices returns the ways out of a component's shortage: fewer covers, smaller
// portions, another batch, topping the last weighed batch up.
func (l *Live) Choices(comp *demand.Component, m *demand.Consequence) []Choice {
	var out []Choice
	id := comp.Card.ID
	if m.Covers > 0 && m.Covers < l.worked.Demand.Covers {
		out = append(out, Choice{Kind: KindCovers, Number: m.Covers})
	}
	if m.Portion.Sign() > 0 {
		out = append(out, Choice{Kind: KindPortion, On: id, Amount: &quantity.Amount{Qty: m.Portion}})
	}
	if m.Again.Sign() > 0 && !l.state.Again[id] {
		out = append(out, Choice{Kind: KindAgain, On: id, Done: true, More: quantity.Amount{Qty: m.Again, Unit: comp.Unit}})
	}
	if m.TopUp.Sign() <= 0 {
		return out
	}
	for i := len(comp.Batches) - 1; i >= 0; i-- {
		if batch := comp.Batches[i]; batch.Measured {
			return append(out, Choice{Kind: KindMeasure, On: BatchKey(id, i+1),
				Amount: &quantity.Amount{Qty: batch.Got.Add(m.TopUp), Unit: comp.Unit}, More: quantity.Amount{Qty: m.TopUp, Unit: comp.Unit}})
		}
	}
	return out
}
