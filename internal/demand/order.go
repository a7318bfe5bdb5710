package demand

import (
	"slices"
	"sort"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// A Line is one thing to buy.
type Line struct {
	Section string // where it stands in the shop
	Slug    string
	Name    string
	Buy     []Purchase        // AP less what is there, rounded up to what one asks for; one entry a measure that can't be brought together
	Need    []quantity.Amount // EP, exact
	Have    quantity.Amount   // in the house already, as the cook said
	Wants   []Want
	Cost    quantity.Number // of Buy, where there is a price; 0 when not
	Priced  bool
	LastDay bool   // does not keep
	Note    string // what was assumed, and on whose word
}

// A Purchase is what one asks for across a counter.
type Purchase struct {
	Amount quantity.Amount
	Packs  int64           // so many packs make it up; 0 when it is sold loose
	Pack   quantity.Amount // what one of them holds
}

// A Shop is what is known outside the cards: prices, and what the house has.
type Shop struct {
	Prices []menu.Price
	Have   map[string]quantity.Amount // by Line.Slug
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
// trimming takes added back, in units it is sold by. Yolks and whites are bought
// as eggs. Tap water is not on it.
func Order(d *Demand, shop Shop) []Line {
	lines := map[string]*line{}
	var slugs []string
	for _, b := range d.Buy {
		comp := d.ByCard[b.Card]
		it := comp.Card.Items[b.Item-1]
		food, known := larder.Find(it.Name)
		if known && food.Section == "none" {
			continue
		}
		if known && food.Whole && b.Amount.Unit == quantity.Each && !b.Rest {
			b.Amount.Qty = wholeOnes(comp, b.Item)
		}
		slug, name, section := document.Slug(it.Name), it.Name, "other"
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
		if b.Rest {
			l.note("above what the dinner itself sets aside")
		}
	}
	slugs = eggs(lines, slugs)
	out := make([]Line, 0, len(slugs))
	for _, slug := range slugs {
		out = append(out, lines[slug].done(shop))
	}
	sort.SliceStable(out, func(i, j int) bool {
		if a, b := place(out[i].Section), place(out[j].Section); a != b {
			return a < b
		}
		return out[i].Name < out[j].Name
	})
	return out
}

// wholeOnes counts what only whole ones are used of: every batch rounds up for
// itself, as the page shows it to the cook.
func wholeOnes(comp *Component, item int) quantity.Number {
	var sum quantity.Number
	for _, m := range comp.Batches {
		if item <= len(m.Items) {
			sum = sum.Add(m.Items[item-1].Need().Ceil())
		}
	}
	return sum
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
	own   larder.Own        // what a card says one weighs
	pack  quantity.Amount   // what a card says a pack holds
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
	if it.Each.Unit != nil {
		l.own.Each = it.Each
	}
	if it.Pack.Unit != nil {
		l.pack = it.Pack
	}
	if b.Amount.Unit == nil {
		return // "to taste"
	}
	trim := it.Trim
	if trim.IsZero() && known && !Untrimmed(it.Prep) {
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

// Untrimmed says whether the prep leaves on what trimming would take.
func Untrimmed(prep string) bool {
	low := strings.ToLower(prep)
	for _, w := range [...]string{"unpeeled", "untrimmed", "skin on", "with skin", "in the pod", "in its skin", "as bought", "whole"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

func (l *line) done(shop Shop) Line {
	food, _ := larder.Find(l.Name)
	have, told := shop.Have[l.Slug]
	if told && have.Unit != nil && have.Qty.Sign() > 0 {
		l.Have = have
	}
	for _, a := range l.buy {
		a.To = quantity.Number{}
		if l.Have.Unit != nil {
			if n, basis, err := larder.Convert(l.Name, l.Have.Qty, l.Have.Unit, a.Unit, l.own); err == nil {
				l.note(basis)
				if a.Qty = a.Qty.Sub(n); a.Qty.Sign() <= 0 {
					continue // enough is there
				}
			} else {
				l.note("what is there can't be taken off: " + err.Error())
			}
		}
		l.Buy = append(l.Buy, l.purchase(a, food))
	}
	l.price(shop.Prices)
	l.Note = strings.Join(l.notes, "; ")
	return l.Line
}

// purchase turns an exact amount into what one asks for: packs where a card or
// the larder says what they hold, else the unit it is sold by, else weight.
func (l *line) purchase(a quantity.Amount, food *larder.Food) Purchase {
	pack := l.pack
	if pack.Unit == nil && food != nil {
		pack = food.Pack
	}
	if pack.Unit != nil && pack.Qty.Sign() > 0 {
		if n, basis, err := larder.Convert(l.Name, a.Qty, a.Unit, pack.Unit, l.own); err == nil {
			l.note(basis)
			if packs, ok := n.Quo(pack.Qty).Ceil().Int64(); ok {
				return Purchase{Amount: pack.Scale(quantity.Int(packs)), Packs: packs, Pack: pack}
			}
		}
	}
	if food != nil && food.By != nil && a.Unit != food.By {
		if n, basis, err := larder.Convert(l.Name, a.Qty, a.Unit, food.By, l.own); err == nil {
			l.note(basis)
			a = quantity.Amount{Qty: n, Unit: food.By}
		}
	}
	return Purchase{Amount: roundUp(a)}
}

// price works out what a line costs, where the kitchen says what it pays.
func (l *line) price(prices []menu.Price) {
	for _, p := range prices {
		if !l.is(p.Item) || len(l.Buy) == 0 || p.Per.Unit == nil || p.Per.Qty.Sign() <= 0 {
			continue
		}
		var sum quantity.Number
		for _, b := range l.Buy {
			n, basis, err := larder.Convert(l.Name, b.Amount.Qty, b.Amount.Unit, p.Per.Unit, l.own)
			if err != nil {
				l.note("no cost: " + err.Error())
				return
			}
			l.note(basis)
			sum = sum.Add(n.Quo(p.Per.Qty).Mul(p.Cost))
		}
		l.Cost, l.Priced = sum, true
		return
	}
}

// is says whether a word means the line's food.
func (l *line) is(word string) bool {
	if food, ok := larder.Find(word); ok {
		return food.Slug == l.Slug
	}
	return document.Slug(word) == l.Slug
}

// Cost is what the lines come to, and how many of those to buy have no price.
func Cost(lines []Line) (sum quantity.Number, unpriced int) {
	for _, l := range lines {
		switch {
		case l.Priced:
			sum = sum.Add(l.Cost)
		case len(l.Buy) > 0:
			unpriced++
		}
	}
	return sum, unpriced
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
