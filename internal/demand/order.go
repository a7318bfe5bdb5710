package demand

import (
	"slices"
	"sort"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Line is one line of the order list.
type Line struct {
	Section string // of the shop
	Slug    string
	Name    string
	Buy     []Purchase        // AP less Have, rounded up; several entries where the measures can't be converted
	Need    []quantity.Amount // EP, exact
	Have    quantity.Amount   // in the house already, as the cook entered
	Wants   []Want
	Cost    quantity.Number // of Buy; 0 when there is no price
	Priced  bool
	Keeps   int    // days as bought; 0 where that is not known
	Note    string // what was assumed, and from which source
}

// A Purchase is an amount as it is sold.
type Purchase struct {
	Amount quantity.Amount
	Packs  int64           // number of packs; 0 when it is sold loose
	Pack   quantity.Amount // what one pack holds
}

// A Want is one card's part of a line, as edible portion.
type Want struct {
	Card   string
	Amount quantity.Amount
}

// Order returns the order list: all uses of one food on one line, with trim added,
// in the units it is sold by, each grade on a line of its own. Yolks and whites are bought as
// eggs. Tap water is left out, and the ice of ice baths is added.
func Order(d *Demand, shop Shop) []Line {
	lines := map[string]*line{}
	var slugs []string
	for _, b := range d.Buy {
		comp := d.ByCard[b.Card]
		it := comp.Card.Items[b.Item-1]
		near := comp.Card.Foods.Nearest(it.Name)
		if near.Food != nil && near.Section == "none" {
			continue
		}
		if !b.Rest && larder.UsedWhole(it.Name, b.Amount.Unit) {
			b.Amount.Qty = wholeOnes(comp, b.Item)
		}
		slug, name, section := LineOf(comp.Card, &it), it.Name, "other"
		if near.Food != nil {
			section = near.Section
		}
		if near.Same {
			name = near.Name
		}
		as := comp.Card.BoughtAs(&it)
		l := lines[slug]
		if l == nil {
			l = &line{Line: Line{Section: section, Slug: slug, Name: name}, food: name, foodSlug: foodOf(comp.Card, &it)}
			if as != "" && !strings.Contains(name, as) {
				l.Name += ", " + as
			}
			if near.Food == nil {
				l.note("not in the food table: no trim is added")
			}
			lines[slug] = l
			slugs = append(slugs, slug)
		}
		l.add(comp.Card, &it, near, b)
		if b.Rest {
			l.note("above what the dinner itself sets aside")
		}
	}
	slugs = eggs(lines, slugs, shop.Foods)
	if l, ok := iceLine(d); ok {
		lines[l.Slug] = l
		slugs = append(slugs, l.Slug)
	}
	prices := shop.bySlug()
	out := make([]Line, 0, len(slugs))
	for _, slug := range slugs {
		out = append(out, lines[slug].done(shop, prices))
	}
	sort.SliceStable(out, func(i, j int) bool {
		if a, b := place(out[i].Section), place(out[j].Section); a != b {
			return a < b
		}
		return out[i].Name < out[j].Name
	})
	return out
}

// LineOf returns the slug of the line on which an item is bought. Each grade of a food, and each
// state in which it is bought, has a line of its own.
func LineOf(c *card.Card, it *card.Item) string {
	slug := foodOf(c, it)
	if as := c.BoughtAs(it); as != "" {
		slug += "-" + document.Slug(as)
	}
	return slug
}

// foodOf returns the slug of an item's food, whatever its grade: prices go by it.
func foodOf(c *card.Card, it *card.Item) string {
	if near := c.Foods.Nearest(it.Name); near.Same {
		return near.Slug()
	}
	return document.Slug(it.Name)
}

// wholeOnes counts an item that is used whole over the batches, each of which takes
// what its mise en place shows.
func wholeOnes(comp *Component, item int) quantity.Number {
	var sum quantity.Number
	for _, m := range comp.Batches {
		if item <= len(m.Items) {
			sum = sum.Add(larder.Taken(m.Items[item-1].Need()))
		}
	}
	return sum
}

// place returns the position of a shop section, unknown ones last.
func place(section string) int {
	if i := slices.Index(larder.Sections, section); i >= 0 {
		return i
	}
	return len(larder.Sections)
}

type line struct {
	Line
	buy      []quantity.Amount // AP, exact, for each of Need
	food     string            // the name of the food alone, by which amounts are converted
	foodSlug string            // and its slug, by which it is priced
	own      larder.Own        // the card's own weights
	pack     quantity.Amount   // the card's own pack size
	notes    []string
}

// note adds an assumption, once.
func (l *line) note(s string) {
	if s != "" && !slices.Contains(l.notes, s) {
		l.notes = append(l.notes, s)
	}
}

// add adds one use to the line.
func (l *line) add(c *card.Card, it *card.Item, near larder.Near, b Bought) {
	if c.Foods != nil {
		l.own.Foods = c.Foods
	}
	l.Wants = append(l.Wants, Want{Card: b.Card, Amount: b.Amount})
	if it.Each.Unit != nil {
		l.own.Each = it.Each
	}
	if !it.Density.IsZero() {
		l.own.Density = it.Density
	}
	if it.Pack.Unit != nil {
		l.pack = it.Pack
	}
	if b.Amount.Unit == nil {
		return // "to taste"
	}
	trim := it.Trim
	if trim.IsZero() && !it.Ready() && !Untrimmed(it.Prep) {
		f := near.Trim()
		if as := c.Foods.Nearest(it.Name + " " + it.Bought); it.Bought != "" && as.Same {
			f = as.Trim() // "peas", bought "in the pod"
		}
		trim = f.Value
		if !trim.IsZero() {
			l.note("trim " + quantity.ShowNumber(trim.Mul(quantity.Int(100))) + " % (" + f.Source + ")")
		}
	}
	ap := b.Amount
	if rest := quantity.Int(1).Sub(trim); rest.Sign() > 0 && b.Amount.Unit.Dim != quantity.Count {
		ap.Qty = ap.Qty.Quo(rest) // a trimmed onion is still one onion
	}
	for i, have := range l.Need {
		n, _, err := larder.Convert(it.Name, b.Amount.Qty, b.Amount.Unit, have.Unit, c.OwnBought(it))
		if err != nil {
			continue
		}
		m, basis, err := larder.Convert(it.Name, ap.Qty, ap.Unit, l.buy[i].Unit, c.OwnBought(it))
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

// Untrimmed reports whether a prep leaves on what trimming takes off.
func Untrimmed(prep string) bool {
	low := strings.ToLower(prep)
	if before, bought, ok := strings.Cut(low, "bought "); ok { // how it is bought says nothing of what is left on
		_, after, _ := strings.Cut(bought, ",")
		low = before + after
	}
	for _, w := range [...]string{"unpeeled", "untrimmed", "skin on", "with skin", "in the pod", "in its skin", "as bought", "whole"} {
		if strings.Contains(low, w) {
			return true
		}
	}
	return false
}

// done finishes a line: less what is in the house, rounded up, priced.
func (l *line) done(shop Shop, prices map[string]kitchen.Price) Line {
	food, _ := l.own.Foods.Find(l.food)
	have, told := shop.Have[l.Slug]
	if told && have.Unit != nil && have.Qty.Sign() > 0 {
		l.Have = have
	}
	for _, a := range l.buy {
		a.To = quantity.Number{}
		if l.Have.Unit != nil {
			if n, basis, err := larder.Convert(l.food, l.Have.Qty, l.Have.Unit, a.Unit, l.own); err == nil {
				l.note(basis)
				if a.Qty = a.Qty.Sub(n); a.Qty.Sign() <= 0 {
					continue // the house has enough
				}
			} else {
				l.note("what is there can't be taken off: " + err.Error())
			}
		}
		l.Buy = append(l.Buy, l.purchase(a, food))
	}
	if near := l.own.Foods.Nearest(l.food).Food; near != nil {
		l.Keeps = near.Keeps()
	}
	l.price(prices)
	l.Note = strings.Join(l.notes, "; ")
	return l.Line
}

// purchase rounds an exact amount up to what is sold: packs where the card or the
// food table gives a pack size, else the unit it is sold by, else its own unit.
func (l *line) purchase(a quantity.Amount, food *larder.Food) Purchase {
	pack := l.pack
	if pack.Unit == nil && food != nil {
		pack = food.Pack()
	}
	if pack.Unit != nil && pack.Qty.Sign() > 0 {
		if n, basis, err := larder.Convert(l.food, a.Qty, a.Unit, pack.Unit, l.own); err == nil {
			l.note(basis)
			if packs, ok := n.Quo(pack.Qty).Ceil().Int64(); ok {
				return Purchase{Amount: pack.Scale(quantity.Int(packs)), Packs: packs, Pack: pack}
			}
		}
	}
	if food != nil && food.By() != nil && a.Unit != food.By() {
		if n, basis, err := larder.Convert(l.food, a.Qty, a.Unit, food.By(), l.own); err == nil {
			l.note(basis)
			a = quantity.Amount{Qty: n, Unit: food.By()}
		}
	}
	return Purchase{Amount: roundUp(a)}
}

// roundUp rounds up to an amount that can be asked for in a shop.
func roundUp(a quantity.Amount) quantity.Amount {
	a.To = quantity.Number{}
	if a.Unit.Dim == quantity.Count {
		a.Qty = a.Qty.Ceil()
		return a
	}
	base := a.Qty.Mul(a.Unit.Factor) // grams or millilitres
	if least, ok := ladderStep(a.Unit); ok {
		a.Qty = base.Quo(least).Ceil().Mul(least).Quo(a.Unit.Factor)
		return a
	}
	step := quantity.Frac(1, 2)
	for _, s := range [...][2]int64{{20, 1}, {100, 5}, {1000, 10}, {10000, 100}} {
		if base.Cmp(quantity.Int(s[0])) > 0 {
			step = quantity.Int(s[1])
		}
	}
	a.Qty = base.Quo(step).Ceil().Mul(step).Quo(a.Unit.Factor)
	return a
}

// ladderStep returns the step in which amounts typed in pounds, cups and pints are bought:
// a quarter of an ounce or of a fluid ounce, in grams or millilitres. So 10 lb stay 10 lb.
// ok is false for metric units.
func ladderStep(u *quantity.Unit) (step quantity.Number, ok bool) {
	name := "ounce"
	switch {
	case u.System != quantity.US && u.System != quantity.Imperial:
		return step, false
	case u.Dim == quantity.Volume && u.System == quantity.US:
		name = "fluid ounce"
	case u.Dim == quantity.Volume:
		name = "imperial fluid ounce"
	}
	least, _ := quantity.LookupUnit(name)
	return least.Factor.Quo(quantity.Int(4)), true
}
