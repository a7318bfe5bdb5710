package larder

import (
	_ "embed"
	"slices"
	"strings"

	"hobside/internal/quantity"
)

// A Food is one row of the table.
type Food struct {
	Slug    string                     // "spring-onion": the key on lists
	Name    string                     // "spring onion"
	Section string                     // the section of a shop; "none" for tap water
	Density quantity.Number            // g per ml; 0 when not known
	Each    map[string]quantity.Number // grams of one, by unit name ("each", "clove")
	Trim    quantity.Number            // share of the purchased weight lost, as a fraction
	Whole   bool                       // only whole ones are used, such as bay leaves
	Last    bool                       // it does not keep: buy it on the last day
	Pack    quantity.Amount            // what one pack holds, zero when it is sold loose
	By      *quantity.Unit             // what it is sold by where that is not weight: each, bunch, head; nil otherwise
	Source  string                     // of the figures, with OWN where they are practice
}

//go:embed foods.txt
var foodsText string

var foods, byName = readFoods(foodsText)

// Find returns the food that an item names as cooks type it ("large red onions,
// sliced"); ok is false where the table has none. Upper and lower case, plurals and
// the usual adjectives make no difference, and what follows a comma is preparation.
// Every other word must be part of the food's name: coconut milk is not milk.
func Find(item string) (*Food, bool) {
	for _, phrase := range phrases(item) {
		if f, ok := byName[phrase]; ok {
			return f, true
		}
	}
	return nil, false
}

// readFoods reads the embedded table, whose columns its first line names, and returns
// the foods and an index by all their names.
func readFoods(text string) ([]*Food, map[string]*Food) {
	var all []*Food
	index := map[string]*Food{}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		c := strings.Split(line, ";")
		f := &Food{Slug: strings.ReplaceAll(c[0], " ", "-"), Name: c[0], Section: c[2], Density: number(c[3]),
			Each: map[string]quantity.Number{}, Trim: number(c[5]).Quo(quantity.Int(100)), Source: c[7]}
		for _, one := range strings.Split(c[4], ",") {
			if unit, grams, ok := strings.Cut(one, " "); ok {
				f.Each[unit] = number(grams)
			}
		}
		flags := strings.Split(c[6], ",")
		f.Whole, f.Last = slices.Contains(flags, "whole"), slices.Contains(flags, "last")
		for _, flag := range flags {
			if size, ok := strings.CutPrefix(flag, "pack "); ok {
				f.Pack, _, _ = quantity.ParseAmount(size)
			}
			if unit, ok := strings.CutPrefix(flag, "by "); ok {
				if f.By, ok = quantity.LookupUnit(unit); !ok {
					f.By = quantity.Each
				}
			}
		}
		all = append(all, f)
		for _, name := range append([]string{c[0]}, strings.Split(c[1], ",")...) {
			if name = singular(name); name != "" {
				index[name] = f
			}
		}
	}
	return all, index
}

// number reads a figure of an embedded table, 0 for an empty one. It panics on
// anything else: the tables are part of the program, and a test reads all of them.
func number(s string) quantity.Number {
	var n quantity.Number
	if s == "" {
		return n
	}
	if err := n.UnmarshalText([]byte(s)); err != nil {
		panic("larder: " + err.Error())
	}
	return n
}
