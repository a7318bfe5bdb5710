package larder

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/quantity"
)

// A Food is one row of the table: one good, as a shop has it.
type Food struct {
	Name    string   // "spring onion"
	Section string   // the section of a shop; "none" for tap water
	others  string   // names beside it in its row
	tokens  string   // what the table says of it, as written there
	block   string   // and of its whole block
	row     string   // its row of USDA SR28; "" for none
	parent  *Food    // the broader food; nil for none
	variant bool     // it is written in its parent's row and shares all of it
	many    bool     // see Category
	own     *OwnFood // what the kitchen says of it; nil for a food of the built-in table
	base    *Food    // of a kitchen's food: the same good in the built-in table; nil for none
}

// SameAs returns the other names of the same good: "scallion".
func (f *Food) SameAs() []string {
	var out []string
	for name := range strings.SplitSeq(f.others, ",") {
		if name != "" && name[0] != '>' {
			out = append(out, name)
		}
	}
	return out
}

// Slug returns the key of a food on lists: "spring-onion".
func (f *Food) Slug() string {
	switch {
	case f.own == nil:
		return strings.ReplaceAll(f.Name, " ", "-")
	case f.base != nil:
		return f.base.Slug()
	}
	return strings.ReplaceAll(key(f.Name), " ", "-")
}

// Is reports whether f is the named food or a kind of it.
func (f *Food) Is(name string) bool {
	for ; f != nil; f = f.parent {
		if f.Name == name {
			return true
		}
	}
	return false
}

// Category reports whether the name is a word for many goods ("steak", "flour"), so
// that it never says which one to buy.
func (f *Food) Category() bool { return f.many }

// blend reports whether the name is a word for what is made of many things that it does not
// say ("soup", "pie"): no one knows what else is in it.
func (f *Food) blend() bool { return f.has("blend") }

// open reports whether nobody knows all that is in a food: it is a word for what is made of
// many things, or its maker decides ("curry powder", "stock cube"). What a kitchen says is
// in it is all.
func (f *Food) open() bool {
	return (f.blend() || f.has("open")) && (f.own == nil || !f.own.Assessed)
}

// Whole reports whether only whole ones are used, such as bay leaves.
func (f *Food) Whole() bool { return f.has("whole") }

// Keeps returns for how many days the food keeps as bought, unopened and in the place
// where a kitchen keeps it: common practice, no source. It is 0 where that is not known.
func (f *Food) Keeps() int {
	if f.own != nil && f.own.Keeps > 0 {
		return f.own.Keeps
	}
	days, _ := strconv.Atoi(f.value("k"))
	return days
}

// Pack returns what the usual pack holds, zero when the food is sold loose.
func (f *Food) Pack() (pack quantity.Amount) {
	if f.own != nil && f.own.sold() {
		return f.own.Pack
	}
	if size := f.value("pack"); size != "" {
		pack, _, _ = quantity.ParseAmount(size)
	}
	return pack
}

// By returns the unit by which the food is sold where that is not its weight: each,
// bunch, head. It is nil otherwise.
func (f *Food) By() *quantity.Unit {
	if f.own != nil && f.own.sold() {
		return f.own.By
	}
	word := f.value("by")
	if word == "" {
		return nil
	}
	if u, ok := quantity.LookupUnit(word); ok {
		return u
	}
	return quantity.Each
}

// has reports whether the table says a word of a food, alone or with a value.
func (f *Food) has(word string) bool {
	for _, token := range f.list() {
		if name, _, _ := strings.Cut(token, "="); name == word {
			return true
		}
	}
	return false
}

// value returns what follows a word and "=". The food's own row decides before
// its block.
func (f *Food) value(word string) string {
	out := ""
	for _, token := range f.list() {
		if name, value, ok := strings.Cut(token, "="); ok && name == word {
			out = value
		}
	}
	return out
}

// list returns the tokens of the block and of the row, in this order.
func (f *Food) list() []string { return strings.Fields(f.block + " " + f.tokens) }

// marked returns the tokens that begin with a sign, without it, as keys of foods.
func (f *Food) marked(sign string) []string {
	var out []string
	for _, token := range f.list() {
		if name, ok := strings.CutPrefix(token, sign); ok {
			out = append(out, key(strings.ReplaceAll(name, "_", " ")))
		}
	}
	return out
}

// madeOf reports whether a food is the one with a key, a kind of it, or made of it.
func (f *Food) madeOf(k string) bool {
	for g := f; g != nil; g = g.parent {
		if key(g.Name) == k || slices.Contains(g.marked("+"), k) {
			return true
		}
	}
	return false
}

// mayBeMadeOf reports whether a food may be made of the one with a key.
func (f *Food) mayBeMadeOf(k string) bool {
	for g := f; g != nil; g = g.parent {
		if slices.Contains(g.marked("+"), k+"?") {
			return true
		}
	}
	return false
}
