package card

import (
	"strings"

	"hobside/internal/quantity"
)

// Front returns the words of the front matter as they are shown, but for "makes": what
// bounds and describes the card, not scaled.
func (s *Scaled) Front() []ShownFact {
	c := s.Card
	var out []ShownFact
	add := func(word, value string) {
		if value != "" {
			out = append(out, ShownFact{Word: word, Value: value})
		}
	}
	keeps := make([]string, len(c.Keeps))
	for i, k := range c.Keeps {
		keeps[i] = k.String()
	}
	add("keeps", strings.Join(keeps, ", "))
	for _, bound := range [...]struct {
		word string
		a    quantity.Amount
	}{{"smallest", c.Smallest}, {"largest", c.Largest}, {"whole", c.Whole}, {"portion", c.Portion}, {"each", c.Each}} {
		add(bound.word, s.amount(bound.a))
	}
	switch {
	case c.NoMargin:
		add("margin", "0 %")
	case !c.Margin.IsZero():
		add("margin", percent(c.Margin))
	}
	if c.Spares != (Spares{}) {
		add("spares", c.Spares.String())
	}
	add("tested", c.Tested.String())
	if !c.Density.IsZero() {
		add("density", quantity.ShowNumber(c.Density)+" g/ml")
	}
	if c.TopUp != "" {
		add("top up", c.TopUp+", up to "+percent(c.TopMost))
	}
	var contains []string
	for _, d := range c.Contains {
		contains = append(contains, d.String())
	}
	add("contains", strings.Join(contains, ", "))
	add("without", strings.Join(c.Without, ", "))
	add("apart", strings.Join(c.Apart, ", "))
	return out
}

// PrepShown returns an item's preparation with the figures that its line gives for one
// piece, for trimming and for a pack: "beaten, each 50 g".
func (it *Item) PrepShown(show quantity.Prefs) string {
	var out []string
	if it.Prep != "" {
		out = append(out, it.Prep)
	}
	if !it.Trim.IsZero() {
		out = append(out, "trim "+percent(it.Trim))
	}
	if it.Each.Unit != nil {
		out = append(out, "each "+quantity.Show(it.Each, show))
	}
	if it.Pack.Unit != nil {
		out = append(out, "pack "+quantity.Show(it.Pack, show))
	}
	return strings.Join(out, ", ")
}

// percent returns a share of one in per cent: "5 %".
func percent(share quantity.Number) string {
	return quantity.ShowNumber(share.Mul(quantity.Int(100))) + " %"
}

// front writes the front matter as a list.
func (w *page) front() {
	facts := w.scaled.Front()
	if len(facts) == 0 {
		return
	}
	w.b.WriteString("<ul class=\"front\">\n")
	for _, f := range facts {
		w.line("<li>", f.String(), "</li>")
	}
	w.b.WriteString("</ul>\n")
}
