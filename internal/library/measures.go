package library

import (
	"maps"
	"slices"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// Measures returns whose pints the set's cooks mean where they do not say.
func (s Set) Measures() quantity.Measures { return quantity.MeasuresOf(s.kitchenRules()) }

// A ruledFile is a name and a text that are read by a kitchen's rules.
type ruledFile struct{ name, text, rules string }

// kitchenRules returns the rules that every kitchen of the set names, "" where it has no
// kitchen or their rules differ.
func (s Set) kitchenRules() string {
	rules, kitchens := "", 0
	for _, f := range s {
		if f.Kitchen == nil {
			continue
		}
		if kitchens++; kitchens > 1 && f.Kitchen.Rules != rules {
			return ""
		}
		rules = f.Kitchen.Rules
	}
	return rules
}

// measure makes the files of a set be read by the rules of its kitchen: whose pints they
// mean. A file without such a word stays as it is.
func (c *Cache) measure(s Set) {
	rules := s.kitchenRules()
	for name, f := range s {
		if f.Kitchen != nil || f.rules == rules || f.rules == "" && quantity.BarePint(f.text) == "" {
			continue
		}
		key := ruledFile{f.Name, f.text, rules}
		with := c.ruled[key]
		if with == nil {
			with = f.under(rules)
			if c.ruled == nil || len(c.ruled) >= mostTexts*mostTexts {
				c.ruled = map[ruledFile]*File{}
			}
			c.ruled[key] = with
		}
		s[name] = with
	}
}

// Read returns a text that is being typed as the set would have it: read by the rules of
// its kitchen and by the kitchen's own foods, nil for none.
func (s Set) Read(name, text string, foods *larder.Foods) *File {
	f := Compile(name, text)
	if rules := s.kitchenRules(); rules != "" && f.Kitchen == nil && quantity.BarePint(text) != "" {
		f = f.under(rules)
	}
	return f.By(foods)
}

// pints returns a problem for each file with a pint that is read as a US one although some
// kitchen of the set goes by the UK's rules: the kitchens do not agree.
func (s Set) pints() (out []document.Problem) {
	if s.kitchenRules() != "" || !slices.ContainsFunc(slices.Collect(maps.Values(s)), func(f *File) bool { return f.Kitchen != nil && f.Kitchen.Rules == "uk" }) {
		return nil
	}
	for _, name := range s.Names() {
		f := s[name]
		word := quantity.BarePint(f.text)
		if word == "" || f.Kitchen != nil || namesRules(f.text) {
			continue
		}
		out = append(out, document.Problem{File: f.Name, Line: 1, Col: 1, Severity: document.Warning,
			Msg: `the kitchens here go by different rules, so "` + word + `" is read as a US measure`,
			Do:  `write "rules: uk" or "rules: us" in the front matter, or "UK ` + word + `" or "US ` + word + `"`})
	}
	return out
}

// namesRules reports whether a file's front matter has "rules".
func namesRules(text string) bool {
	return slices.ContainsFunc(document.FrontMatter([]byte(text)), func(f document.Fact) bool { return f.Word == "rules" })
}

// under returns the file read by a kitchen's rules.
func (f *File) under(rules string) *File {
	with := &File{Name: f.Name, text: f.text, rules: rules}
	src := []byte(f.text)
	switch {
	case f.Menu != nil:
		with.Menu, with.Problems = menu.ParseFor(f.Name, src, nil, quantity.MeasuresOf(rules))
	case f.Foods != nil:
		with.Foods, with.Problems = kitchen.ParseFoodsFor(f.Name, src, quantity.MeasuresOf(rules))
	default:
		with.Card, with.Problems = card.ParseFor(f.Name, src, nil, rules)
	}
	return with
}
