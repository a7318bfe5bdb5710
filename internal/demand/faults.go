package demand

import (
	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// fault adds a problem of the explosion.
func (e *explosion) fault(file string, at document.Pos, sev document.Severity, msg string) {
	e.problems = append(e.problems, document.Problem{File: file, Line: at.Line, Col: at.Col, Severity: sev, Msg: msg})
}

// oneCover returns what a cover gets of a card when neither the menu nor the card says so:
// one of what it makes where that is counted. Of what is weighed or measured nobody knows
// how much a cover gets: that is an error, and the list goes on with one batch for all.
func (e *explosion) oneCover(comp *Component, p menu.Plate) quantity.Amount {
	c := comp.Card
	if comp.Unit.Dim == quantity.Count {
		return quantity.Amount{Qty: quantity.Int(1), Unit: comp.Unit}
	}
	e.problems = append(e.problems, document.Problem{File: e.in.Menu.File, Line: p.Pos.Line, Col: p.Pos.Col, Severity: document.Error,
		Msg: `"` + c.Title + `" makes ` + shownAmount(c.Makes) + ", and nothing says how much of it a cover gets",
		Do:  `write it behind the link, like "120 g per cover", or add "portion: 120 g" to ` + c.ID + ".md"})
	return quantity.Amount{Qty: c.Makes.Qty.Quo(quantity.Int(int64(max(1, e.d.Covers)))), Unit: comp.Unit}
}

// wrongUnit adds the problem of an amount of a card in a unit that the card does not make.
func (e *explosion) wrongUnit(file string, at document.Pos, c *card.Card, a quantity.Amount) {
	e.problems = append(e.problems, document.Problem{File: file, Line: at.Line, Col: at.Col, Severity: document.Error,
		Msg: shownAmount(a) + ` of "` + c.Title + `" can't be worked out: ` + c.ID + ".md makes " + shownAmount(c.Makes),
		Do:  "write the amount in " + c.Makes.Unit.Plural + lacking(c, a)})
}

// lacking says what a card must tell before an amount in another unit is one of what it makes.
func lacking(c *card.Card, a quantity.Amount) string {
	has := func(d quantity.Dimension) bool { return a.Unit.Dim == d || c.Makes.Unit.Dim == d }
	switch {
	case has(quantity.Length):
		return ""
	case has(quantity.Count) && c.Each.Unit == nil:
		return ", or add what one of them weighs to " + c.ID + `.md, like "each: 55 g"`
	case has(quantity.Volume) && c.Density.IsZero():
		return ", or add what a millilitre weighs to " + c.ID + `.md, like "density: 1.03"`
	}
	return ""
}

// shownAmount writes an amount in a problem.
func shownAmount(a quantity.Amount) string {
	return quantity.Show(a, quantity.Prefs{Scale: quantity.Int(1)})
}
