package demand

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Line is one thing to buy.
type Line struct {
	Section string // where it stands in the shop
	Slug    string
	Name    string
	Buy     []quantity.Amount // AP, rounded up to what one asks for; one entry a measure that can't be brought together
	Need    []quantity.Amount // EP, exact
	Wants   []Want
	LastDay bool   // does not keep
	Note    string // what was assumed, and on whose word
}

// A Want is one card's part of a line, EP.
type Want struct {
	Card   string
	Amount quantity.Amount
}

// sections is the order of a list to buy: what keeps first, what must stay
// cold last into the basket. Common practice, no source.
var sections = []string{"dry goods", "oils and vinegars", "tins and jars", "drinks", "vegetables", "fruit", "herbs", "bread", "other", "dairy and eggs", "meat", "fish", "frozen"}

// Order is the list to buy: all uses of one food on one line, with what
// trimming takes added back. Tap water is not on it.
func Order(d *Demand) []Line {
	lines := map[string]*line{}
	var slugs []string
	for _, b := range d.Buy {
		comp := d.ByCard[b.Card]
		it := comp.Card.Items[b.Item-1]
		food, known := larder.Find(it.Name)
		if known && food.Section == "none" {
			continue
		}
		slug, name, section := card.Slug(it.Name), it.Name, "other"
		if known {
			slug, name, section = food.Slug, food.Name, food.Section
		}
		l := lines[slug]
		if l == nil {
			l = &line{Line: Line{Section: section, Slug: slug, Name: name}}
			if known {
				l.LastDay = food.Last
			} else {
				l.note("not in the food table: no trim is added")
			}
			lines[slug] = l
			slugs = append(slugs, slug)
		}
		l.add(it, food, known, b)
	}
	out := make([]Line, 0, len(slugs))
	for _, slug := range slugs {
		out = append(out, lines[slug].done())
	}
	slices.SortStableFunc(out, func(a, b Line) int {
		if n := place(a.Section) - place(b.Section); n != 0 {
			return n
		}
		return strings.Compare(a.Name, b.Name)
	})
	return out
}

func place(section string) int {
	if i := slices.Index(sections, section); i >= 0 {
		return i
	}
	return len(sections)
}

type line struct {
	Line
	buy   []quantity.Amount // AP, exact, beside Need
	notes []string
}

func (l *line) note(s string) {
	if s != "" && !slices.Contains(l.notes, s) {
		l.notes = append(l.notes, s)
	}
}

// add puts one use on the line.
func (l *line) add(it card.Item, food *larder.Food, known bool, b Bought) {
	l.Wants = append(l.Wants, Want{Card: b.Card, Amount: b.Amount})
	if b.Amount.Unit == nil {
		return // "to taste"
	}
	trim := it.Trim
	if trim.IsZero() && known && !untrimmed(it.Prep) {
		trim = food.Trim
		if !trim.IsZero() {
			l.note("trim " + quantity.ShowNumber(trim.Mul(quantity.Int(100))) + " % (" + food.Source + ")")
		}
	}
	ap := b.Amount
	if rest := quantity.Int(1).Sub(trim); rest.Sign() > 0 && b.Amount.Unit.Dim != quantity.Count {
		ap.Qty = ap.Qty.Quo(rest) // a trimmed onion is still one onion to buy
	}
	for i, have := range l.Need {
		n, _, err := larder.Convert(it.Name, b.Amount.Qty, b.Amount.Unit, have.Unit, larder.Own{Each: it.Each})
		if err != nil {
			continue
		}
		m, basis, err := larder.Convert(it.Name, ap.Qty, ap.Unit, l.buy[i].Unit, larder.Own{Each: it.Each})
		if err != nil {
			continue
		}
		l.note(basis)
		l.Need[i].Qty = have.Qty.Add(n)
		l.buy[i].Qty = l.buy[i].Qty.Add(m)
		return
	}
	l.Need = append(l.Need, b.Amount)
	l.buy = append(l.buy, ap)
}

// untrimmed says whether the prep leaves on what trimming would take.
func untrimmed(prep string) bool {
	low := strings.ToLower(prep)
	for _, w := range [...]string{"unpeeled", "untrimmed", "skin on", "with skin", "in the pod", "in its skin", "as bought", "whole"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

func (l *line) done() Line {
	for _, a := range l.buy {
		l.Buy = append(l.Buy, roundUp(a))
	}
	l.Note = strings.Join(l.notes, "; ")
	return l.Line
}

// roundUp rounds to what one asks for across a counter, never below the need.
func roundUp(a quantity.Amount) quantity.Amount {
	a.To = quantity.Number{}
	if a.Unit.Dim == quantity.Count {
		a.Qty = a.Qty.Ceil()
		return a
	}
	base := a.Qty.Mul(a.Unit.Factor) // grams or millilitres
	step := quantity.Frac(1, 2)
	for _, s := range [...][2]int64{{20, 1}, {100, 5}, {1000, 10}, {10000, 50}} {
		if base.Cmp(quantity.Int(s[0])) > 0 {
			step = quantity.Int(s[1])
		}
	}
	a.Qty = base.Quo(step).Ceil().Mul(step).Quo(a.Unit.Factor)
	return a
}
