package engine

import (
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// batch writes one batch of a card: what to get ready, and its steps. In says which items
// are left out; cautions are those of each step.
func (e *Engine) batch(comp *demand.Component, index, way int, in *demand.Input, cautions [][]string) BatchView {
	c, m := comp.Card, comp.Batches[index]
	n := index + 1
	s := c.Scale(m.Factor, way, e.show)
	v := BatchView{
		Key:    dinner.BatchKey(c.ID, n),
		Make:   e.amount(quantity.Amount{Qty: m.Amount, Unit: comp.Unit}),
		Unit:   quantity.UnitToAsk(quantity.Amount{Qty: m.Amount, Unit: comp.Unit}, e.show),
		Exact:  m.Factor.String(),
		Tested: c.TestedFor(m.Amount),
		Mise:   []MiseView{},
		Steps:  []StepView{},
	}
	if m.Measured {
		v.Got = e.amount(quantity.Amount{Qty: m.Got, Unit: comp.Unit})
	}
	left := make([]bool, len(c.Items))
	for i, it := range c.Items {
		left[i] = in.Off(c, i)
		v.Mise = append(v.Mise, MiseView{
			Key: dinner.MiseKey(c.ID, n, i+1), Item: i + 1, Amount: s.Items[i].Amount, Aside: s.Items[i].Beside(), Name: it.Name, Prep: it.Prep,
			Optional: it.Optional, Left: left[i], Card: it.Card, Group: it.Group,
		})
	}
	for i := range c.Steps {
		if c.Steps[i].In(way) {
			step := stepView(s, i, left)
			step.Key, step.At, step.Cautions = dinner.StepKey(c.ID, n, i+1), dinner.StepPlace{Card: c.ID, Batch: n, Step: i + 1}, cautions[i]
			v.Steps = append(v.Steps, step)
		}
	}
	if last := len(v.Steps) - 1; last >= 0 {
		v.Steps[last].Facts = append(v.Steps[last].Facts, each(s.Service(), factView)...)
	}
	return v
}

// factView returns a fact as the stove shows it.
func factView(f card.ShownFact) FactView { return FactView{f.Word, f.Stove} }

// stepView returns one step of a scaled card as the stove shows it: its amounts
// are listed on their own, for large type, as well as within the sentence. An
// item that is left out has no amount.
func stepView(scaled *card.Scaled, index int, left []bool) StepView {
	c, s, of := scaled.Card, &scaled.Card.Steps[index], &scaled.Steps[index]
	v := StepView{
		Number: s.Number, Runs: []RunView{}, Uses: []UseView{}, Facts: each(scaled.StoveFacts(index), factView), Saves: list(of.Saves),
		Faults: each(c.FaultsAt(index), func(f card.Fault) FaultView { return FaultView{f.Words, f.Rescue} }),
		Until:  of.Until, Heat: of.Heat, Hands: s.HandsText(of.Hands), Wait: s.WaitText(of.Wait), Loads: of.Load,
		WaitLow: of.Wait.Low, WaitHigh: of.Wait.High, AtLeast: of.Wait.Form == document.AtLeast || of.Wait.Form == document.Overnight,
		Serve: s.Serve, Probe: s.Probed(),
	}
	if v.WaitLow > 0 {
		v.Timer = document.FormatSeconds(v.WaitLow)
	}
	if s.Until.Amount.Unit != nil {
		v.Weigh = s.Until.Amount.Unit.Symbol
	}
	for r, run := range s.Text {
		rv := RunView{Text: run.Text, Item: run.Item, Strong: run.Strong}
		if run.Item > 0 {
			it := c.Items[run.Item-1]
			rv.Card = it.Card
			if !left[run.Item-1] && of.Uses[r].Amount != "" {
				rv.Amount = of.Uses[r].Amount
				v.Uses = append(v.Uses, UseView{Amount: rv.Amount, Aside: of.Uses[r].Aside, Name: it.Name, Prep: it.Prep, Card: it.Card})
			}
		}
		v.Runs = append(v.Runs, rv)
	}
	return v
}
