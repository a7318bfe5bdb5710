package kitchen

import (
	"errors"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// price reads a line of the list of prices: "butter: €9.20 per kg", "eggs: 0.30
// each", "thyme: 1.10 per bunch". A line that is no price is a problem.
func (p *parser) price(item ast.Node) {
	f, ok := p.ItemFact(item)
	if !ok {
		return
	}
	const form = `write it like "- butter: 9.20 per kg" or "- eggs: 0.30 each"`
	if f.Word == "" {
		p.Err(f.At, `"`+f.Value+`" has no price`, "", form)
		return
	}
	if price, ok := readPrice(p.File, f.Value, f.ValueAt, form); ok {
		price.Item, price.Pos = f.Word, p.Place(f.At)
		p.kitchen.Prices = append(p.kitchen.Prices, price)
	}
}

// readPrice reads a price, which begins at an offset of a file: "€9.20 per kg", "0.30
// each". ok is false when it added a problem; form says how a price is written there.
func readPrice(d *document.File, s string, at int, form string) (price Price, ok bool) {
	sum, per, ok := priceParts(s)
	figure := strings.TrimFunc(sum, func(r rune) bool { return !unicode.IsDigit(r) })
	price = Price{File: d.Name, Currency: strings.TrimSpace(strings.Replace(sum, figure, "", 1)), Pos: d.Place(at)}
	cost, rest, err := quantity.ParseAmount(figure)
	var doubt *quantity.AmountError
	if errors.As(err, &doubt) && doubt.Doubtful {
		d.Err(at, `"`+s+`" `+doubt.Msg, "", doubt.Do)
		return price, false
	}
	sound := err == nil && rest == "" && cost.Unit == quantity.Each && cost.To.IsZero() && len([]rune(price.Currency)) <= 4
	switch {
	case sound && !ok:
		d.Err(at, `"`+s+`" is not a price: it does not say how much that buys`, "", form)
		return price, false
	case !sound:
		d.Err(at, `"`+s+`" is not a price`, "", form)
		return price, false
	}
	if price.Cost, price.Currency, ok = hundredths(cost.Qty, price.Currency); !ok {
		d.Err(at, `"`+s+`" is in hundredths of a currency that is not said`, "", `write it like "€0.90 each"`)
		return price, false
	}
	per = strings.TrimSpace(per)
	if per != "" && !unicode.IsDigit([]rune(per)[0]) {
		per = "1 " + per
	}
	price.Per, rest, err = d.Measures.ParseAmount(per)
	if errors.As(err, &doubt) && doubt.Doubtful {
		d.Err(at, `"`+per+`" `+doubt.Msg, "", doubt.Do)
		return price, false
	}
	if err != nil || price.Per.Unit == nil || rest != "" {
		d.Err(at, `"`+per+`" is not an amount that can have a price`, "", form)
		return price, false
	}
	return price, true
}

// priceParts parts a price in the sum and what that buys: "€9.20 per kg", "£1.50/kg", "90p a
// bunch", "€0.30 each", "3 for £1". ok is false, and sum is all of it, where it does not say
// what that buys.
func priceParts(s string) (sum, per string, ok bool) {
	s = strings.TrimSpace(s)
	for _, word := range [...]string{" per ", "/", " a ", " an "} {
		if sum, per, ok := strings.Cut(s, word); ok && per != "piece" {
			return sum, per, true
		}
	}
	for _, word := range [...]string{"each", "apiece", "a piece"} {
		if sum, ok := strings.CutSuffix(s, word); ok {
			return sum, "1", true
		}
	}
	left, right, ok := strings.Cut(s, " for ")
	switch {
	case !ok:
	case hasCurrency(left) && !hasCurrency(right):
		return left, right, true
	case hasCurrency(right) && !hasCurrency(left):
		return right, left, true
	}
	return s, "", false
}

// hasCurrency reports whether a sum begins with a currency or ends with one: "£1", "2 EUR",
// "90p".
func hasCurrency(s string) bool {
	s = strings.TrimSpace(s)
	word := strings.TrimSpace(strings.TrimFunc(s, func(r rune) bool { return unicode.IsDigit(r) || r == '.' || r == ',' }))
	if word == "" || len([]rune(word)) > 4 {
		return false
	}
	_, unit := quantity.LookupUnit(word)
	return !unit
}

// hundredths turns a sum in pence into pounds, and one in US cents into dollars. ok is false
// for cents, which many currencies have.
func hundredths(cost quantity.Number, currency string) (quantity.Number, string, bool) {
	switch strings.ToLower(currency) {
	case "p", "pence":
		return cost.Mul(quantity.Frac(1, 100)), "£", true
	case "¢":
		return cost.Mul(quantity.Frac(1, 100)), "$", true
	case "c", "ct", "cent", "cents":
		return cost, currency, false
	}
	return cost, currency, true
}

// Slug returns the slug of the food that the price is for: that of the good by all its
// names ("beef tenderloin" is beef fillet), else that of its words. Foods are the kitchen's
// own, nil for none.
func (p Price) Slug(foods *larder.Foods) string {
	if food, ok := foods.Find(p.Item); ok {
		return food.Slug()
	}
	return document.Slug(p.Item)
}
