package engine

import (
	"fmt"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/library"
	"hobside/internal/quantity"
)

// read makes a page of one file, of the library or still being typed.
func (e *Engine) read(in ReadCall) (*PageView, error) {
	d := e.library[in.Name]
	if in.Text != "" {
		d = library.Compile(in.Name, in.Text)
	}
	if d == nil {
		return nil, fmt.Errorf("there is no file %s in the library", in.Name)
	}
	v := &PageView{Problems: append([]document.Problem{}, d.Problems...)}
	v.Problems = append(v.Problems, e.library.CheckFile(d)...)
	switch {
	case d.Menu != nil:
		v.Kind, v.Title, v.HTML = "menu", d.Menu.Title, document.HTML(d.Menu.Source)
	case d.Kitchen != nil:
		v.Kind, v.Title, v.HTML = "kitchen", d.Kitchen.Title, document.HTML(d.Kitchen.Source)
	default:
		factor, err := pageFactor(d.Card, in)
		if err != nil {
			return nil, err
		}
		v.Kind, v.Title = "card", d.Card.Title
		v.Makes = e.amount(d.Card.Makes.Scale(factor))
		shown := e.shown(d.Card, factor)
		v.HTML = card.HTML(d.Card, shown)
		e.lay(v, d.Card, factor, shown, in.Hundred)
	}
	if v.Title == "" {
		v.Title = d.ID()
	}
	return v, nil
}

// pageFactor is the factor that makes a card, or one line of it, what was asked.
func pageFactor(c *card.Card, in ReadCall) (quantity.Number, error) {
	one := quantity.Int(1)
	if in.Line == 0 || strings.TrimSpace(in.Make) == "" {
		return scaleTo(c, in.Make)
	}
	if in.Line < 0 || in.Line > len(c.Items) {
		return one, fmt.Errorf("the formula has no line %d", in.Line)
	}
	it := c.Items[in.Line-1]
	if it.Amount.Unit == nil || it.Amount.Need().IsZero() {
		return one, fmt.Errorf("%s has no amount to scale by", it.Name)
	}
	a, after, err := quantity.ParseAmount(in.Make)
	if err != nil || a.Unit == nil || after != "" {
		return one, fmt.Errorf("%q is no amount: write it like 1.35 kg", in.Make)
	}
	n, _, err := larder.Convert(it.Name, a.Need(), a.Unit, it.Amount.Unit, larder.Own{Each: it.Each})
	if err != nil {
		return one, err
	}
	return n.Quo(it.Amount.Need()), nil
}

// scaleTo is the factor that makes a card give what was asked: "2.4 kg",
// "30 pieces", "×3".
func scaleTo(c *card.Card, makes string) (quantity.Number, error) {
	one := quantity.Int(1)
	makes = strings.TrimSpace(makes)
	if makes == "" {
		return one, nil
	}
	for _, times := range [...]string{"×", "x", "*"} {
		rest, ok := strings.CutPrefix(strings.ToLower(makes), times)
		if !ok {
			continue
		}
		a, after, err := quantity.ParseAmount(strings.TrimSpace(rest))
		if err != nil || after != "" || a.Unit != quantity.Each {
			return one, fmt.Errorf("%q is not so many times: write it like ×3", makes)
		}
		return a.Qty, nil
	}
	a, after, err := quantity.ParseAmount(makes)
	if err != nil {
		return one, fmt.Errorf("%q is no amount: %w", makes, err)
	}
	if a.Unit == nil || after != "" {
		return one, fmt.Errorf("%q is no amount: write it like 2.4 kg or ×3", makes)
	}
	if c.Makes.Unit == nil || c.Makes.Qty.Sign() <= 0 {
		return one, fmt.Errorf("the card does not say what it makes, so it can't be scaled to %s; ×3 works", makes)
	}
	n, _, err := larder.Convert(c.Title, a.Need(), a.Unit, c.Makes.Unit, larder.Own{Each: c.Each, Density: c.Density})
	if err != nil {
		return one, fmt.Errorf("the card makes %s: %w", quantity.Show(c.Makes, quantity.Prefs{Scale: one}), err)
	}
	return n.Quo(c.Makes.Qty), nil
}

// shown writes all amounts of a card, scaled.
func (e *Engine) shown(c *card.Card, factor quantity.Number) card.Shown {
	out := card.Shown{Makes: e.amount(c.Makes.Scale(factor))}
	for _, it := range c.Items {
		text, aside := e.item(it, it.Amount.Scale(factor))
		if !it.Percent.IsZero() && aside == "" {
			aside = e.percent(it.Percent)
		}
		if aside != "" {
			text += " (" + aside + ")"
		}
		out.Items = append(out.Items, text)
	}
	out.Uses = make([][]string, len(c.Steps))
	for way := min(1, len(c.Ways)); way <= len(c.Ways); way++ {
		used, _ := c.Uses(way, factor)
		uses := e.split(c, used)
		for s := range uses {
			if w := c.Steps[s].Way; w != 0 && w != way {
				continue
			}
			out.Uses[s] = make([]string, len(uses[s]))
			for r := range uses[s] {
				out.Uses[s][r] = uses[s][r].amount
			}
		}
	}
	for i := range c.Steps {
		until := ""
		if c.Steps[i].Until.Amount.Unit != nil {
			until = e.until(&c.Steps[i], factor)
		}
		out.Until = append(out.Until, until)
	}
	for _, s := range c.Saves {
		out.Saves = append(out.Saves, e.amount(s.Amount.Scale(factor)))
	}
	return out
}
