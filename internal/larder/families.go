package larder

import (
	_ "embed"
	"slices"
	"strings"
)

//go:embed families.txt
var familiesText string

// A family is the foods that a guest's word reaches although they have other names, and
// those that may hold it. Own compilation: common practice, no source.
type family struct{ has, may []*Food }

// families are by the key of the guest's word; blends by their kind: foods that are made
// of many things, which the table does not list; unlike by the key of a word: foods that
// share it and are other goods.
var families, blends, unlike = readFamilies(familiesText)

// readFamilies reads the embedded families. A line is words: foods that it reaches; foods
// that may hold it. A line with "@" is a kind of blend, one with "!" foods that share a word
// and do not have it.
func readFamilies(text string) (all map[string]family, blends, unlike map[string][]*Food) {
	all, blends, unlike = map[string]family{}, map[string][]*Food{}, map[string][]*Food{}
	for line := range strings.Lines(text) {
		heads, lists, _ := strings.Cut(strings.TrimSpace(line), ":")
		has, may, _ := strings.Cut(lists, ";")
		if kind, ok := strings.CutPrefix(heads, "@"); ok {
			blends[kind] = foodsOf(has)
			continue
		}
		if word, ok := strings.CutPrefix(heads, "!"); ok {
			unlike[key(word)] = foodsOf(has)
			continue
		}
		f := family{foodsOf(has), foodsOf(may)}
		for head := range strings.SplitSeq(heads, ", ") {
			all[key(head)] = f
		}
	}
	return all, blends, unlike
}

// foodsOf returns the foods of a list of names.
func foodsOf(list string) []*Food {
	out := make([]*Food, 0, 1+strings.Count(list, ","))
	for name := range strings.SplitSeq(list, ",") {
		name = strings.TrimPrefix(name, " ")
		f := byName[name]
		if f == nil {
			f = byName[key(name)]
		}
		if f != nil {
			out = append(out, f)
		}
	}
	return out
}

// among reports whether a food, or what it is a kind of, is among some.
func (f *Food) among(some []*Food) bool {
	for ; f != nil; f = f.parent {
		if slices.Contains(some, f) || f.base != nil && slices.Contains(some, f.base) {
			return true
		}
	}
	return false
}

// hiding are the kinds of blends in which a food of a section of the shop may be.
var hiding = map[string][]string{"vegetables": {"stock", "spice", "sauce"}, "herbs": {"stock", "spice", "sauce"}, "fruit": {"sauce", "sweet"}, "fish": {"fish"},
	"dairy and eggs": {"stock", "sauce", "sweet", "bread"}, "dry goods": {"stock", "spice", "sauce", "sweet", "bread"}, "drinks": {"sauce", "sweet"},
	"oils and vinegars": {"stock", "sauce", "bread"}, "tins and jars": {"stock", "sauce"}, "other": {"stock", "sauce"}}

// mayHold reports whether a food that an item names may hold one that a guest avoids: it
// is a word for many goods of that kind, a broader food, a blend, or has the same eggs or
// nuts in it.
func (f *Food) mayHold(avoided *Food) bool {
	if f == avoided || f.same(avoided) {
		return false
	}
	for g := avoided.parent; g != nil; g = g.parent {
		if g.same(f) {
			return true // beef may be beef fillet
		}
	}
	if f.Category() && f.block == avoided.block && (avoided.Animals()[0] != NoAnimal || avoided.plant()) {
		return true // white fish may be cod
	}
	for _, kind := range hiding[avoided.Section] {
		if f.among(blends[kind]) && f.mayCarry(avoided) {
			return true
		}
	}
	return avoided.block == byName["egg"].block && f.carries("eg") || avoided.carries("nu") && f.carries("nu") && f.Section != avoided.Section
}

// carries reports whether a food carries an allergen, or may.
func (f *Food) carries(code string) bool {
	return slices.ContainsFunc(f.codes(), func(c codeOf) bool { return c.code == code })
}

// mayCarry reports whether a food carries, or may, each allergen that another always has:
// what has no milk in it has no cheese.
func (f *Food) mayCarry(other *Food) bool {
	return !slices.ContainsFunc(other.codes(), func(c codeOf) bool { return c.certainty == Always && !f.carries(c.code) })
}

// same reports whether two foods are one good, though a kitchen has its own row for it.
func (f *Food) same(g *Food) bool {
	return f == g || f.base != nil && f.base == g || g.base != nil && g.base == f
}
