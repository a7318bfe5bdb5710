package demand

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Spent is what something costs by the kitchen's prices.
type Spent struct {
	Sum     quantity.Number // in the prices' currency, exact; without what is missing
	Priced  int             // how many items have a price
	Missing []string        // items without a price or without a weight, and why
	Assumed []string        // what was taken as so, in words
}

// CostOf returns what one batch of a card costs by its formula as typed, through every
// component: of each item what is bought for it, with its trim, to the gram. Packs that are
// not used up cost nothing here; the order list has them.
func CostOf(in Input, id string, shop Shop) Spent {
	c := newCosts(in, shop)
	return c.card(id).Times(quantity.Int(1))
}

// costs works out what cards cost, each card once.
type costs struct {
	in     Input
	shop   Shop
	prices map[string]kitchen.Price
	known  map[string]*Spent
	on     map[string]bool // cards on the path, against loops
}

func newCosts(in Input, shop Shop) *costs {
	return &costs{in: in, shop: shop, prices: shop.bySlug(), known: map[string]*Spent{}, on: map[string]bool{}}
}

// card returns what one batch of a card costs.
func (w *costs) card(id string) *Spent {
	if s := w.known[id]; s != nil {
		return s
	}
	s := &Spent{}
	c := w.in.Cards[id]
	if c == nil || w.on[id] {
		s.miss(id)
		return s
	}
	w.on[id] = true
	defer delete(w.on, id)
	for i := range c.Items {
		it := &c.Items[i]
		switch {
		case w.in.Off(c, i):
		case it.Amount.ToTaste:
			s.assume(it.Name + " to taste is not counted")
		case it.Card != "":
			w.component(s, c, it)
		default:
			w.bought(s, c, it, it.Amount)
		}
	}
	w.known[id] = s
	return s
}

// component adds a line that another card makes or sets aside.
func (w *costs) component(s *Spent, c *card.Card, it *card.Item) {
	sub := w.in.Cards[it.Card]
	if it.Save != "" && (sub == nil || !slices.ContainsFunc(sub.Saves, func(b card.ByProduct) bool { return b.Slug == it.Save })) {
		w.bought(s, c, it, it.Amount)
		return
	}
	if it.Save != "" {
		s.assume(it.Name + " is set aside by " + sub.Title + ", which bears its cost")
		return
	}
	if sub == nil || it.Amount.Unit == nil || sub.Makes.Unit == nil || sub.Makes.Qty.Sign() <= 0 {
		s.miss(it.Name)
		return
	}
	n, _, err := larder.Convert(sub.Title, it.Amount.Need(), it.Amount.Unit, sub.Makes.Unit, sub.Own())
	if err != nil {
		s.miss(it.Name + ": " + err.Error())
		return
	}
	s.add(w.card(it.Card), n.Quo(sub.Makes.Qty))
}

// bought adds an amount of an item that is bought, with its trim.
func (w *costs) bought(s *Spent, c *card.Card, it *card.Item, a quantity.Amount) {
	near := c.Foods.Nearest(it.Name)
	if near.Food != nil && near.Section == "none" {
		return // tap water
	}
	if a.Unit == nil {
		s.miss(it.Name + ": no amount")
		return
	}
	a = quantity.Amount{Qty: a.Need(), Unit: a.Unit}
	if trim, _ := TrimOf(c, it); a.Unit.Dim != quantity.Count {
		if rest := quantity.Int(1).Sub(trim); rest.Sign() > 0 {
			a.Qty = a.Qty.Quo(rest)
		}
	}
	slug := foodOf(c, it)
	p, ok := w.prices[slug]
	if part, of := eggPart(slug); !ok && of {
		if p, ok = w.prices["egg"]; ok { // one egg for each
			n, _, err := larder.Convert(it.Name, a.Qty, a.Unit, quantity.Each, c.OwnBought(it))
			if err != nil {
				s.miss(it.Name + ": " + err.Error())
				return
			}
			s.assume("an egg is counted for each " + part)
			w.paid(s, p, "egg", quantity.Amount{Qty: n, Unit: quantity.Each}, larder.Own{Foods: c.Foods})
			return
		}
	}
	if !ok {
		s.miss(it.Name)
		return
	}
	w.paid(s, p, it.Name, a, c.OwnBought(it))
}

// paid adds what an amount of an item costs at its price.
func (w *costs) paid(s *Spent, p kitchen.Price, item string, a quantity.Amount, own larder.Own) {
	cost, _, err := priceOf(p, item, a, own)
	if err != nil {
		s.miss(item + ": " + err.Error())
		return
	}
	s.Sum = s.Sum.Add(cost)
	s.Priced++
}

// eggPart returns the part of an egg that a line of the order list is for.
func eggPart(slug string) (part string, ok bool) {
	part, ok = strings.CutPrefix(slug, "egg-")
	return part, ok && (part == "yolk" || part == "white")
}

// add adds so many times what something else costs.
func (s *Spent) add(of *Spent, times quantity.Number) {
	s.Sum = s.Sum.Add(of.Sum.Mul(times))
	s.Priced += of.Priced
	for _, m := range of.Missing {
		s.miss(m)
	}
	for _, a := range of.Assumed {
		s.assume(a)
	}
}

func (s *Spent) miss(what string) {
	if !slices.Contains(s.Missing, what) {
		s.Missing = append(s.Missing, what)
	}
}

func (s *Spent) assume(what string) {
	if !slices.Contains(s.Assumed, what) {
		s.Assumed = append(s.Assumed, what)
	}
}

// Times returns what so many times of it cost.
func (s *Spent) Times(n quantity.Number) Spent {
	var out Spent
	out.add(s, n)
	slices.Sort(out.Assumed)
	return out
}

// Each returns what one plate or piece costs where s is what one batch of a card does, and
// what it is called. It is nothing for a card that makes a weight or a volume.
func (s *Spent) Each(c *card.Card) (each Spent, of string) {
	if c.Makes.Unit == nil || c.Makes.Unit.Dim != quantity.Count || c.Makes.Qty.Sign() <= 0 {
		return each, ""
	}
	return s.Times(quantity.Int(1).Quo(c.Makes.Qty)), c.Makes.Unit.Name
}
