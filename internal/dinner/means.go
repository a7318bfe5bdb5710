package dinner

import (
	"strconv"

	"hobside/internal/demand"
	"hobside/internal/quantity"
)

// Means is what follows when a card's batches gave less or more than planned, as
// one cook reads it.
type Means struct {
	Planned string   `json:"planned"`
	Made    string   `json:"made"`
	Need    string   `json:"need"`
	Short   string   `json:"short"`  // what is missing, "" when there is enough
	Spare   string   `json:"spare"`  // what is left over, "" for nothing
	Covers  int      `json:"covers"` // covers that still get a whole portion
	Gets    []Get    `json:"gets"`   // what each use gets now, when it is short
	Choices []Choice `json:"choices"`
	Doubt   string   `json:"doubt"` // a weight that does not count until it is entered again, "" for none
}

// A Get is what one user of a short component gets.
type Get struct {
	To      string `json:"to"` // a card or a course
	Planned string `json:"planned"`
	Now     string `json:"now"`
}

// Means returns what follows from a component's batches, nil while everything is
// as planned.
func (l *Live) Means(comp *demand.Component, show quantity.Prefs) *Means {
	c := l.worked.Consequence(comp)
	doubt, doubted := l.Doubt(comp)
	if c == nil && !doubted {
		return nil
	}
	m := &Means{Covers: l.worked.Demand.Covers}
	if doubted {
		m.Doubt = quantity.Show(doubt.Got, show) + " where " + quantity.Show(doubt.Planned, show) +
			" was planned: it is kept, and does not count yet. If it is right enter it once more, else weigh again"
	}
	if c == nil {
		return m
	}
	text := func(n quantity.Number) string { return quantity.Show(quantity.Amount{Qty: n, Unit: comp.Unit}, show) }
	m.Planned, m.Made, m.Need, m.Covers = text(c.Planned), text(c.Made), text(c.Need), c.Covers
	if c.Short.IsZero() {
		if comp.Left.Sign() > 0 {
			m.Spare = text(comp.Left)
		}
		return m
	}
	m.Short = text(c.Short)
	amounts := make([]quantity.Amount, len(c.Gets))
	for i, n := range c.Gets {
		amounts[i] = quantity.Amount{Qty: n, Unit: comp.Unit}
	}
	shown, together := quantity.ShowParts(amounts, show)
	for i, u := range comp.Uses {
		g := Get{To: l.worked.GoesTo(u), Planned: text(u.Amount)}
		if g.Now = text(c.Gets[i]); together {
			g.Now = shown[i]
		}
		m.Gets = append(m.Gets, g)
	}
	m.Choices = l.Choices(comp, c)
	for i := range m.Choices {
		m.Choices[i].Text = l.choiceText(comp, &m.Choices[i], show)
	}
	return m
}

// choiceText returns the words of the button that takes a way out of a shortage.
func (l *Live) choiceText(comp *demand.Component, c *Choice, show quantity.Prefs) string {
	switch c.Kind {
	case KindCovers:
		return strconv.Itoa(c.Number) + " covers, a whole portion each"
	case KindPortion:
		return strconv.Itoa(l.worked.Demand.Covers) + " covers, " + quantity.ShowShare(c.Amount.Qty) + " of a portion"
	case KindAgain:
		return "Make another " + quantity.Show(c.More, show)
	}
	return "Top up with " + quantity.Show(c.More, show) + " of " + comp.Card.TopUp
}
