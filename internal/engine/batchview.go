package engine

import (
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// batch writes one batch of a card down: what to get ready, and its steps.
func (e *Engine) batch(comp *demand.Component, index, way int, leave map[string]bool, cautions [][]string) BatchView {
	c, m := comp.Card, comp.Batches[index]
	n := index + 1
	v := BatchView{
		Key:   dinner.BatchKey(c.ID, n),
		Make:  e.amount(quantity.Amount{Qty: m.Amount, Unit: comp.Unit}),
		Exact: m.Factor.String(),
		Mise:  []MiseView{},
		Steps: []StepView{},
	}
	if m.Measured {
		v.Got = e.amount(quantity.Amount{Qty: m.Got, Unit: comp.Unit})
	}
	left := make([]bool, len(c.Items))
	for i, it := range c.Items {
		left[i] = leave[dinner.ItemKey(c.ID, i+1)]
		text, aside := e.item(it, it.Amount.Scale(m.Factor))
		if !it.Percent.IsZero() && aside == "" {
			aside = e.percent(it.Percent)
		}
		v.Mise = append(v.Mise, MiseView{
			Key: dinner.MiseKey(c.ID, n, i+1), Item: i + 1, Amount: text, Aside: aside, Name: it.Name, Prep: it.Prep,
			Optional: it.Optional, Left: left[i], Card: it.Card, Group: it.Group,
		})
	}
	used, _ := c.Uses(way, m.Factor)
	shown := e.split(c, used)
	for s := range c.Steps {
		if w := c.Steps[s].Way; w == 0 || w == way {
			v.Steps = append(v.Steps, e.step(c, n, s, m.Factor, shown[s], left, cautions[s]))
		}
	}
	return v
}

// shownUse is what one run of a step says.
type shownUse struct{ amount, aside string }

// split writes the uses of all steps as text. An item used in several parts is
// rounded so that the shown parts add up to the shown whole.
func (e *Engine) split(c *card.Card, used [][]card.Used) [][]shownUse {
	type place struct{ step, run int }
	parts := make([][]place, len(c.Items))
	shown := make([][]shownUse, len(used))
	for s := range used {
		shown[s] = make([]shownUse, len(used[s]))
		for r, u := range used[s] {
			if item := c.Steps[s].Text[r].Item; item > 0 && !u.Again {
				parts[item-1] = append(parts[item-1], place{s, r})
			}
		}
	}
	for i, places := range parts {
		amounts := make([]quantity.Amount, len(places))
		for k, p := range places {
			amounts[k] = used[p.step][p.run].Amount
		}
		texts, together := quantity.ShowParts(amounts, e.show)
		if !together {
			texts, together = e.partsByWeight(c.Items[i], amounts)
		}
		for k, p := range places {
			text, aside := e.item(c.Items[i], amounts[k])
			if together {
				text = texts[k]
			}
			shown[p.step][p.run] = shownUse{text, aside}
		}
	}
	return shown
}

// partsByWeight writes the parts of a whole that is counted and doesn't come out
// even (3.4 eggs), and so is shown by weight. ok is false for any other.
func (e *Engine) partsByWeight(it card.Item, parts []quantity.Amount) (texts []string, ok bool) {
	if len(parts) < 2 {
		return nil, false
	}
	var whole quantity.Amount
	grams := make([]quantity.Amount, len(parts))
	for i, a := range parts {
		if a.Unit == nil || a.Unit.Dim != quantity.Count || i > 0 && a.Unit != whole.Unit || !a.To.IsZero() {
			return nil, false
		}
		whole.Qty, whole.Unit = whole.Qty.Add(a.Qty), a.Unit
		n, _, err := larder.Convert(it.Name, a.Qty, a.Unit, gram, larder.Own{Each: it.Each})
		if err != nil {
			return nil, false
		}
		grams[i] = quantity.Amount{Qty: n, Unit: gram}
	}
	if text, _ := e.item(it, whole); text == e.amount(whole) {
		return nil, false
	}
	return quantity.ShowParts(grams, e.show)
}

var gram, _ = quantity.LookupUnit("g")

// step writes one step as the stove shows it.
func (e *Engine) step(c *card.Card, batch, index int, factor quantity.Number, shown []shownUse, left []bool, cautions []string) StepView {
	s := &c.Steps[index]
	hands, wait := c.Time(s, factor)
	v := StepView{
		Key: dinner.StepKey(c.ID, batch, index+1), Number: s.Number,
		Runs: []RunView{}, Uses: []UseView{}, Facts: []FactView{}, Saves: []string{},
		Until: e.until(s, factor), Heat: e.heat(s), Hands: hands.String(), Wait: wait.String(), Loads: e.loads(c, s, factor),
		WaitLow: wait.Low, WaitHigh: wait.High, AtLeast: wait.Form == document.AtLeast || wait.Form == document.Overnight,
		Serve: s.Serve, Probe: s.Probed(),
	}
	if s.Until.Amount.Unit != nil {
		v.Weigh = s.Until.Amount.Unit.Symbol
	}
	for r, run := range s.Text {
		rv := RunView{Text: run.Text, Item: run.Item, Strong: run.Strong}
		if run.Item > 0 {
			it := c.Items[run.Item-1]
			rv.Card = it.Card
			if !left[run.Item-1] {
				rv.Amount = shown[r].amount
				if rv.Amount != "" {
					v.Uses = append(v.Uses, UseView{Amount: rv.Amount, Aside: shown[r].aside, Name: it.Name, Prep: it.Prep, Card: it.Card})
				}
			}
		}
		v.Runs = append(v.Runs, rv)
	}
	v.Facts = e.facts(s)
	v.Cautions = cautions
	for _, slug := range s.Saves {
		for _, b := range c.Saves {
			if b.Slug == slug {
				v.Saves = append(v.Saves, b.Name+", "+e.amount(b.Amount.Scale(factor)))
			}
		}
	}
	return v
}

func (e *Engine) until(s *card.Step, factor quantity.Number) string {
	if s.Until.Amount.Unit != nil {
		return e.amount(s.Until.Amount.Scale(factor))
	}
	return s.Until.Words
}

func (e *Engine) heat(s *card.Step) string {
	var out []string
	for _, q := range s.Equipment {
		switch {
		case q.Words == "":
			out = append(out, q.Name)
		case q.HasTemp && e.show.System == quantity.US:
			out = append(out, q.Name+" "+fahrenheit(q.TempC)+" ("+q.Words+")")
		default:
			out = append(out, q.Name+" "+q.Words)
		}
	}
	return strings.Join(out, "; ")
}

func (e *Engine) loads(c *card.Card, s *card.Step, factor quantity.Number) string {
	if s.Load.Unit == nil {
		return ""
	}
	n := c.Loads(s, factor)
	if n == 1 {
		return "all in one load"
	}
	return e.amount(s.Load) + " at a time, " + itoa(n) + " loads"
}

// facts are the rest of a step's facts: those without a place of their own.
func (e *Engine) facts(s *card.Step) []FactView {
	out := []FactView{}
	add := func(word, value string) {
		if value != "" {
			out = append(out, FactView{Word: word, Value: value})
		}
	}
	for _, c := range s.Check {
		add("check", c.Words)
	}
	if s.Cool.Set {
		text := "to " + celsius(s.Cool.ToC)
		if e.show.System == quantity.US {
			text = "to " + fahrenheit(s.Cool.ToC)
		}
		if s.Cool.Within > 0 {
			text += " within " + document.FormatSeconds(s.Cool.Within)
		}
		add("cool", text)
	}
	for _, k := range s.Keep {
		add("keep", k.String())
	}
	return out
}
