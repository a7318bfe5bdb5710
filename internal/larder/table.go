package larder

import (
	_ "embed"
	"strings"

	"hobside/internal/quantity"
)

//go:embed foods.txt
var foodsText string

var foods, byName = readFoods(foodsText)

// readFoods reads the embedded table and returns its foods in order and an index by the
// keys of all their names. A line with "@" begins a block: the section of the shop and
// what its rows have in common. A row is name ; other names ; row of USDA SR28 ; tokens.
// A name with ">" is a food of its own that shares all of the row. README.md beside the
// table explains the tokens.
func readFoods(text string) ([]Food, map[string]*Food) {
	all := make([]Food, 0, 1+strings.Count(text, "\n")+strings.Count(text, ">"))
	index := make(map[string]*Food, 2*cap(all))
	add := func(f Food) *Food {
		all = append(all, f) // never beyond its capacity: the index points into it
		index[key(f.Name)] = &all[len(all)-1]
		return &all[len(all)-1]
	}
	section, block := "", ""
	for text != "" {
		line, rest, _ := strings.Cut(text, "\n")
		text = rest
		if head, ok := strings.CutPrefix(line, "@"); ok {
			section, block, _ = strings.Cut(head, " ")
			section = strings.ReplaceAll(section, "_", " ")
			continue
		}
		name, line, _ := strings.Cut(line, ";")
		others, line, _ := strings.Cut(line, ";")
		row, tokens, _ := strings.Cut(line, ";")
		f := add(Food{Name: name, Section: section, others: others, tokens: tokens, block: block, row: row,
			parent: parentOf(tokens, index), many: strings.Contains(tokens, "cat")})
		for others != "" {
			other, more, _ := strings.Cut(others, ",")
			others = more
			if kind, ok := strings.CutPrefix(other, ">"); ok {
				add(Food{Name: kind, Section: section, tokens: tokens, block: block, row: row, parent: f, variant: true})
				continue
			}
			index[key(other)] = f
		}
	}
	for name, f := range index {
		if strings.HasSuffix(name, " pepper") {
			index[name+"s"] = f // one keeps this plural: peppers are no spice
		}
	}
	return all, index
}

// parentOf returns the broader food that a row names, which must stand before it.
func parentOf(tokens string, index map[string]*Food) *Food {
	at := strings.IndexByte(tokens, '<')
	if at < 0 {
		return nil
	}
	name, _, _ := strings.Cut(tokens[at+1:], " ")
	return index[key(strings.ReplaceAll(name, "_", " "))]
}

// Find returns the food that an item names as cooks type it ("red onions, sliced"); ok
// is false where the table has none. Upper and lower case, accents, hyphens and plurals
// make no difference, and what follows a comma is preparation. Every other word must be
// part of the food's name: coconut milk is not milk, and smoked bacon is not bacon.
func (fs *Foods) Find(item string) (*Food, bool) {
	f := fs.lookup(key(item))
	return f, f != nil && !f.Category()
}

// Find returns the food of the built-in table that an item names, as [Foods.Find] does.
func Find(item string) (*Food, bool) { return (*Foods)(nil).Find(item) }

// A Near is what the table has nearest to an item.
type Near struct {
	*Food      // nil where nothing is near
	Same  bool // it is the same good
}

// Nearest returns the food that an item is or, where the table does not have it, a
// broader food, whose weight, trim and density may be used if that is said. It has no
// food where a word says that the item was cooked, cured or preserved, or takes back
// what it names.
func (fs *Foods) Nearest(item string) Near {
	m := fs.resolve(item)
	if m.changed && !m.same || m.denied {
		return Near{}
	}
	return Near{m.food, m.same}
}

// Nearest returns what the built-in table has nearest to an item, as [Foods.Nearest] does.
func Nearest(item string) Near { return (*Foods)(nil).Nearest(item) }

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
