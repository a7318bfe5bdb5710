package engine

import (
	"fmt"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// read returns a page of one file: of the library, or of the text that is still
// being typed. Its problems are those of the file, of its links and of the dinners that
// need it. It fails
// when the library has no such file and when the amount to scale to can't be
// read.
func (e *Engine) read(in ReadCall) (*PageView, error) {
	f := e.library[in.Name]
	if in.Text != "" {
		f = e.library.Read(in.Name, in.Text, e.foods)
	}
	if f == nil {
		return nil, fmt.Errorf("there is no file %s in the library", in.Name)
	}
	v := &PageView{Title: f.Title(), Problems: append(list(f.Problems), dinner.CheckFile(e.library, e.foods, f)...)}
	switch {
	case f.Menu != nil:
		v.Kind, v.HTML = "menu", document.HTML(f.Menu.Source)
	case f.Kitchen != nil:
		v.Kind, v.HTML = "kitchen", document.HTML(f.Kitchen.Source)
	case f.Foods != nil:
		v.Kind, v.HTML = "foods", document.HTML(f.Foods.Source)
	default:
		factor, err := factorOf(f.Card, in)
		if err != nil {
			return nil, err
		}
		s := f.Card.Scale(factor, 0, e.show)
		v.Kind, v.Makes, v.HTML, v.Card = "card", s.Makes, card.HTML(s), e.cardPage(s, in.Hundred)
		v.Card.Nutrition, v.Card.Cost = e.nutrition(f.Card), e.cost(s)
	}
	return v, nil
}

// factorOf returns the factor at which a card gives, or takes of one item, what
// was asked for. It fails for an amount that can't be read.
func factorOf(c *card.Card, in ReadCall) (quantity.Number, error) {
	if in.Line == 0 || strings.TrimSpace(in.Make) == "" {
		return c.FactorTo(in.Make)
	}
	return c.FactorToItem(in.Line, in.Make)
}

// cardPage returns a scaled card in its parts, with each item's share of the
// items at 100 %. Shares are of the card as typed, because a factor changes
// none.
func (e *Engine) cardPage(s *card.Scaled, hundred []int) *CardPage {
	c := s.Card
	ratios, whole := demand.Ratios(c, hundred)
	gram, _ := quantity.LookupUnit("g")
	p := &CardPage{Factor: s.Factor.String(), Weighs: e.amount(quantity.Amount{Qty: whole.Mul(s.Factor), Unit: gram}),
		Items: []PageItem{}, Steps: []PageStep{}, Saves: []string{}, Asides: list(demand.Remarks(c, ratios, whole))}
	if share, ok := demand.YieldOf(c, ratios, whole); ok {
		p.Yield = quantity.ShowShare(share) + " of " + p.Weighs
	}
	for i, it := range c.Items {
		r, a := ratios[i], &s.Items[i]
		item := PageItem{Item: i + 1, Group: it.Group, Amount: a.Amount, Exact: a.Exact, Aside: a.Aside, Name: it.Name, Prep: it.Prep,
			Card: it.Card, Hundred: r.Hundred, Basis: r.Basis + r.Why}
		if r.Why == "" && !r.Percent.IsZero() {
			item.Percent = quantity.ShowPercent(r.Percent)
		}
		if trim, source := demand.TrimOf(c, &it); !trim.IsZero() {
			item.Trim = quantity.ShowShare(trim) + " (" + source + ")"
		}
		p.Items = append(p.Items, item)
	}
	for i := range c.Steps {
		p.Steps = append(p.Steps, pageStep(s, i))
	}
	for i, b := range c.Saves {
		text := b.Name + ": " + s.Saves[i]
		for _, k := range b.Keeps {
			text += ", " + k.String()
		}
		p.Saves = append(p.Saves, text)
	}
	return p
}

// pageStep returns one step of a scaled card as text, with its amounts within
// the sentence, as on paper.
func pageStep(s *card.Scaled, i int) PageStep {
	step := &s.Card.Steps[i]
	out := PageStep{Number: step.Number, Text: s.Sentence(i), Facts: each(s.Facts(i), card.ShownFact.String)}
	if step.Way > 0 && step.Way <= len(s.Card.Ways) {
		out.Way = s.Card.Ways[step.Way-1].Name
	}
	return out
}
