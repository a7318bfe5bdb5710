package demand

import (
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Shop is what the order list and the costs need beside the cards.
type Shop struct {
	Prices []kitchen.Price            // of two prices for one food the first counts
	Foods  *larder.Foods              // the kitchen's own; nil for none
	Have   map[string]quantity.Amount // by Line.Slug
}

// currency returns the currency of the kitchen's first price, "" where none
// names one. A kitchen buys in one currency.
func (s Shop) currency() string {
	for _, p := range s.Prices {
		if p.Currency != "" {
			return p.Currency
		}
	}
	return ""
}

// Money returns a sum with two decimals, in the kitchen's currency: a sign goes before the
// figure, a word after it. A sum above 0 that would round to 0 is less than the least.
func (s Shop) Money(n quantity.Number) string {
	text, less, currency := n.Decimal(2), "", s.currency()
	if n.Sign() > 0 && n.Cmp(quantity.Frac(1, 200)) < 0 {
		text, less = "0.01", "less than "
	}
	switch {
	case currency == "":
		return less + text
	case currency[0] >= 'A' && currency[0] <= 'z':
		return less + text + " " + currency
	}
	return less + currency + text
}

// bySlug returns the price of each food by the slug of its line. Of two prices for one
// food the first counts.
func (s Shop) bySlug() map[string]kitchen.Price {
	out := make(map[string]kitchen.Price, len(s.Prices))
	for _, p := range s.Prices {
		slug := p.Slug(s.Foods)
		if _, twice := out[slug]; !twice && p.Per.Unit != nil && p.Per.Qty.Sign() > 0 {
			out[slug] = p
		}
	}
	return out
}

// price works out the cost of a line from the kitchen's prices.
func (l *line) price(prices map[string]kitchen.Price) {
	p, ok := prices[l.Slug]
	if !ok {
		p, ok = prices[l.foodSlug]
	}
	if !ok || len(l.Buy) == 0 {
		return
	}
	var sum quantity.Number
	for _, b := range l.Buy {
		cost, basis, err := priceOf(p, l.food, b.Amount, l.own)
		if err != nil {
			l.note("no cost: " + err.Error())
			return
		}
		l.note(basis)
		sum = sum.Add(cost)
	}
	l.Cost, l.Priced = sum, true
}

// priceOf returns what an amount of an item costs at a price, and how the amount was
// brought to what the price is for. It fails where that is not known.
func priceOf(p kitchen.Price, item string, a quantity.Amount, own larder.Own) (cost quantity.Number, basis string, err error) {
	n, basis, err := larder.Convert(item, a.Qty, a.Unit, p.Per.Unit, own)
	if err != nil {
		return cost, "", err
	}
	return n.Quo(p.Per.Qty).Mul(p.Cost), basis, nil
}

// Cost returns the cost of all lines and how many of those to buy have no price.
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
