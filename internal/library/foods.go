package library

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// A stock is the cards and menus of a set as they are read by some files of a kitchen's own
// foods.
type stock struct {
	of    []*File // the files of foods, in the order of their names
	foods *larder.Foods
	read  map[*File]*File // by the file as it is without them
}

// Stock makes the files of a set be read by the rules of its kitchen, its cards' items and
// its menus' guests' words by the foods files of the set. It returns those foods, nil where
// there are none. A card that uses none of the foods stays as it is. Each file is read once
// for one text of it and of the foods.
func (c *Cache) Stock(s Set) *larder.Foods {
	c.measure(s)
	of := s.foodFiles()
	if len(of) == 0 {
		return nil
	}
	st := c.stockOf(of)
	for name, f := range s {
		if f.Card == nil && f.Menu == nil {
			continue
		}
		with, known := st.read[f]
		if !known {
			with = f.By(st.foods)
			st.read[f], st.read[with] = with, with
		}
		s[name] = with
	}
	return st.foods
}

// stockOf returns the stock of some files of foods, the one that is known or a new one.
func (c *Cache) stockOf(of []*File) *stock {
	for i := range c.stocks {
		if slices.Equal(c.stocks[i].of, of) {
			return &c.stocks[i]
		}
	}
	if len(c.stocks) == mostTexts {
		c.stocks = slices.Clone(c.stocks[1:])
	}
	c.stocks = append(c.stocks, stock{of, foodsOf(of), map[*File]*File{}})
	return &c.stocks[len(c.stocks)-1]
}

// foodsOf returns the foods of files of foods, nil for no file.
func foodsOf(of []*File) *larder.Foods {
	if len(of) == 0 {
		return nil
	}
	var rows []larder.OwnFood
	for _, f := range of {
		for i := range f.Foods.Rows {
			rows = append(rows, f.Foods.Rows[i].OwnFood)
		}
	}
	return larder.NewFoods(rows)
}

// By returns the file with its card or menu read by a kitchen's own foods: the file itself
// where it is neither, its card names none of the foods or there are none.
func (f *File) By(foods *larder.Foods) *File {
	with := &File{Name: f.Name, text: f.text, rules: f.rules}
	switch {
	case foods == nil, f.Card == nil && f.Menu == nil:
		return f
	case f.Menu != nil:
		with.Menu, with.Problems = menu.ParseFor(f.Name, []byte(f.text), foods, quantity.MeasuresOf(f.rules))
		return with
	case !f.usesFoods(foods):
		return f
	}
	with.Card, with.Problems = card.ParseFor(f.Name, []byte(f.text), foods, f.rules)
	return with
}

// usesFoods reports whether a card names one of a kitchen's own foods.
func (f *File) usesFoods(foods *larder.Foods) bool {
	for i := range f.Card.Items {
		if it := &f.Card.Items[i]; foods.Names(it.Name) || foods.Names(it.Prep) {
			return true
		}
	}
	for _, d := range f.Card.Contains {
		if foods.Names(d.Words) {
			return true
		}
	}
	for i := range f.Card.Saves {
		if foods.Names(f.Card.Saves[i].Name) {
			return true
		}
	}
	return foods.Names(f.Card.TopUp) || foods.Names(f.Card.Title)
}

// foodFiles returns the files of a kitchen's own foods, in the order of their names.
func (s Set) foodFiles() []*File {
	var out []*File
	for _, name := range s.Names() {
		if s[name].Foods != nil {
			out = append(out, s[name])
		}
	}
	return out
}

// Prices returns what things cost in a kitchen, nil for none: by the kitchen's own foods,
// then by its own list.
func (s Set) Prices(k *kitchen.Kitchen) []kitchen.Price {
	var out []kitchen.Price
	for _, f := range s.foodFiles() {
		for i := range f.Foods.Rows {
			if p := f.Foods.Rows[i].Price; p != nil {
				out = append(out, *p)
			}
		}
	}
	if k != nil {
		out = append(out, k.Prices...)
	}
	return out
}
