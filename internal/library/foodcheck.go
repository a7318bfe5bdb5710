package library

import (
	"strconv"

	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
)

// foodProblems returns what files of foods and the kitchens' lists of prices show only
// together: a name that two files have, a second price of one food, a second currency.
func (s Set) foodProblems() []document.Problem {
	files := s.foodFiles()
	if len(files) == 0 {
		return nil
	}
	c := foodChecker{names: map[string]place{}, priced: map[string]*kitchen.Price{}}
	var rows []larder.OwnFood
	for _, f := range files {
		for i := range f.Foods.Rows {
			c.row(f.Name, &f.Foods.Rows[i])
			rows = append(rows, f.Foods.Rows[i].OwnFood)
		}
	}
	foods := larder.NewFoods(rows)
	prices := s.Prices(nil)
	for _, name := range s.Names() {
		if k := s[name].Kitchen; k != nil {
			prices = append(prices, k.Prices...)
		}
	}
	for i := range prices {
		c.price(&prices[i], foods)
	}
	return c.problems
}

// A place is a line of a file.
type place struct {
	file string
	line int
}

// A foodChecker holds what was seen so far of foods and prices.
type foodChecker struct {
	names    map[string]place          // by the key of a name
	priced   map[string]*kitchen.Price // by the slug of the food
	first    *kitchen.Price            // the first price with a currency
	problems []document.Problem
}

// add adds a problem.
func (c *foodChecker) add(severity document.Severity, file string, at document.Pos, msg, do string) {
	c.problems = append(c.problems, document.Problem{File: file, Line: at.Line, Col: at.Col, Severity: severity, Msg: msg, Do: do})
}

// row checks that no other file has a name of a row.
func (c *foodChecker) row(file string, r *kitchen.FoodRow) {
	for _, name := range append([]string{r.Name}, r.Others...) {
		k := larder.NameKey(name)
		if first, twice := c.names[k]; twice {
			c.add(document.Error, file, r.Pos, `"`+name+`" is in `+first.file+", line "+strconv.Itoa(first.line)+", too, which counts", "a name is one food's: take one of the two out")
			continue
		}
		c.names[k] = place{file, r.Pos.Line}
	}
}

// price checks that a food has one price, and that all have one currency.
func (c *foodChecker) price(p *kitchen.Price, foods *larder.Foods) {
	if p.Currency != "" && c.first != nil && p.Currency != c.first.Currency {
		c.add(document.Error, p.File, p.Pos, `the price of "`+p.Item+`" is in another currency than that of "`+c.first.Item+`" in `+c.first.File, "give all prices in one currency")
	}
	if c.first == nil && p.Currency != "" {
		c.first = p
	}
	food, known := foods.Find(p.Item)
	if !known {
		return
	}
	first := c.priced[food.Slug()]
	switch {
	case first == nil:
		c.priced[food.Slug()] = p
	case first.File != p.File:
		c.add(document.Warning, p.File, p.Pos, `"`+p.Item+`" has a price in `+first.File+" too, which counts", "take one of the two out")
	}
}
