package engine

import (
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// lay writes a scaled card down in its parts, with each item's share of the
// hundred beside its amount.
func (e *Engine) lay(v *PageView, c *card.Card, factor quantity.Number, shown card.Shown, hundred []int) {
	p := &CardPage{Factor: factor.String(), Items: []PageItem{}, Steps: []PageStep{}, Saves: []string{}}
	ratios, whole := demand.Ratios(c, hundred)
	gram, _ := quantity.LookupUnit("g")
	all := true
	for i, it := range c.Items {
		amount, aside := e.item(it, it.Amount.Scale(factor))
		r := ratios[i]
		item := PageItem{Item: i + 1, Group: it.Group, Amount: amount, Exact: it.Amount.Scale(factor), Aside: aside, Name: it.Name, Prep: it.Prep,
			Card: it.Card, Hundred: r.Hundred, Basis: r.Basis + r.Why, Trim: trim(it)}
		if r.Why == "" && !r.Percent.IsZero() {
			item.Percent = e.percent(r.Percent)
		}
		all = all && (r.Why == "" || r.Why == "to taste")
		p.Items = append(p.Items, item)
	}
	p.Weighs = e.amount(quantity.Amount{Qty: whole.Mul(factor), Unit: gram})
	if all && whole.Sign() > 0 && c.Makes.Unit != nil {
		if n, _, err := larder.Convert(c.Title, c.Makes.Qty, c.Makes.Unit, gram, larder.Own{Each: c.Each, Density: c.Density}); err == nil {
			p.Yield = e.percent(n.Quo(whole).Mul(quantity.Int(100))) + " of " + p.Weighs
		}
	}
	for i := range c.Steps {
		p.Steps = append(p.Steps, pageStep(c, i, shown))
	}
	for i, s := range c.Saves {
		text := s.Name + ": " + shown.Saves[i]
		for _, k := range s.Keeps {
			text += ", " + k.String()
		}
		p.Saves = append(p.Saves, text)
	}
	p.Asides = asides(c, ratios, whole)
	v.Card = p
}

func pageStep(c *card.Card, i int, shown card.Shown) PageStep {
	s := &c.Steps[i]
	out := PageStep{Number: s.Number, Facts: c.Facts(s, shown.Until[i])}
	if out.Facts == nil {
		out.Facts = []string{}
	}
	if s.Way > 0 && s.Way <= len(c.Ways) {
		out.Way = c.Ways[s.Way-1].Name
	}
	var text strings.Builder
	for r, run := range s.Text {
		if i < len(shown.Uses) && r < len(shown.Uses[i]) && shown.Uses[i][r] != "" {
			text.WriteString(shown.Uses[i][r] + " ")
		}
		text.WriteString(run.Text)
	}
	out.Text = text.String()
	return out
}

// trim says how much of an item is lost in trimming, and on whose word.
func trim(it card.Item) string {
	if !it.Trim.IsZero() {
		return quantity.ShowNumber(it.Trim.Mul(quantity.Int(100))) + " % (the card)"
	}
	if food, ok := larder.Find(it.Name); ok && !food.Trim.IsZero() && !demand.Untrimmed(it.Prep) {
		return quantity.ShowNumber(food.Trim.Mul(quantity.Int(100))) + " % (" + food.Source + ")"
	}
	return ""
}
