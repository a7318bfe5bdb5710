package library

import (
	"strconv"

	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
)

// priceProblems returns what the prices of a kitchen show only together, those of the
// kitchen's own foods among them: a second price of one food, which is never used, and a
// second currency. Several kitchens may have prices of their own.
func (s Set) priceProblems() []document.Problem {
	foods := foodsOf(s.foodFiles())
	var out []document.Problem
	kitchens := []*kitchen.Kitchen{nil} // the own foods alone
	for _, name := range s.Names() {
		if k := s[name].Kitchen; k != nil {
			kitchens = append(kitchens, k)
		}
	}
	seen := map[document.Problem]bool{}
	for _, k := range kitchens {
		for _, p := range twoPrices(s.Prices(k), foods) {
			if !seen[p] {
				seen[p] = true
				out = append(out, p)
			}
		}
	}
	return out
}

// twoPrices returns the problems of prices that are used together. Foods are the
// kitchen's own, nil for none.
func twoPrices(prices []kitchen.Price, foods *larder.Foods) []document.Problem {
	var out []document.Problem
	add := func(severity document.Severity, p *kitchen.Price, msg, do string) {
		out = append(out, document.Problem{File: p.File, Line: p.Pos.Line, Col: p.Pos.Col, Severity: severity, Msg: msg, Do: do})
	}
	priced := map[string]*kitchen.Price{} // by the slug of the food
	var paid *kitchen.Price               // the first price with a currency
	for i := range prices {
		p := &prices[i]
		switch {
		case p.Currency == "":
		case paid == nil:
			paid = p
		case p.Currency != paid.Currency:
			add(document.Error, p, `the price of "`+p.Item+`" is in another currency than that of "`+paid.Item+`" in `+paid.File, "give all prices in one currency")
		}
		slug := p.Slug(foods)
		first := priced[slug]
		switch {
		case first == nil:
			priced[slug] = p
		case first.File != p.File:
			add(document.Warning, p, `"`+p.Item+`" has a price in `+first.File+" too, which counts", "take one of the two out")
		case first.Item != p.Item:
			add(document.Error, p, `"`+p.Item+`" is the same food as "`+first.Item+`" on line `+strconv.Itoa(first.Pos.Line)+", and has another price there", "take one of the two out")
		default:
			add(document.Error, p, `"`+p.Item+`" has another price on line `+strconv.Itoa(first.Pos.Line), "take one of the two out")
		}
	}
	return out
}
