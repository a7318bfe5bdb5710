package card

import (
	"slices"
	"strings"

	"hobside/internal/document"
)

// apart reads what work is kept apart from: "apart: gluten, nuts".
func (p *parser) apart(f document.Fact) (from []string) {
	f.Split(func(part string, at int) {
		a, ok := p.card.Foods.Understand(part)
		if !ok {
			p.Err(at, `"`+part+`" is no allergen, no kind of animal and no food that is known`, p.card.Foods.Suggest(part), `write it like "apart: gluten"`)
			return
		}
		if !slices.Contains(from, a.Words) {
			from = append(from, a.Words)
		}
	})
	return from
}

// ApartFrom returns what a step is kept apart from: by its own fact and by the card's
// front matter.
func (c *Card) ApartFrom(s *Step) []string {
	out := slices.Clone(c.Apart)
	for _, from := range s.Apart {
		if !slices.Contains(out, from) {
			out = append(out, from)
		}
	}
	return out
}

// ownThings are the things that work kept apart has of its own, by the words of the step
// and its equipment that call for them. Common practice, no source; what a guest's
// allergy needs, the kitchen's own allergen procedure says.
var ownThings = []struct{ words, thing string }{
	{"fry fried fryer frying", "own oil"},
	{"pipe piped piping", "own piping bag"},
	{"cut slice chop dice crush break shred score divide board", "own board and knife"},
	{"roll", "own rolling pin"},
	{"bake baked oven tray trays tin roast", "own tray, new paper"},
	{"mixer blender processor blend whisk mix", "bowl and blades washed"},
	{"hob pan", "own pan and spoon"},
	{"sieve strain drain", "own sieve"},
	{"bowl bowls plate plates spoon lay", "clean bowls and plates"},
}

// Clean returns what a step that is kept apart has of its own or clean: "clean bench,
// hands and cloth, own piping bag".
func (s *Step) Clean() string {
	said := map[string]bool{}
	for _, w := range strings.FieldsFunc(strings.ToLower(s.Sentence()+" "+strings.Join(s.EquipmentNames(), " ")), func(r rune) bool { return !document.IsWordRune(r) }) {
		said[w] = true
	}
	out := []string{"clean bench, hands and cloth"}
	for _, own := range ownThings {
		if slices.ContainsFunc(strings.Fields(own.words), func(w string) bool { return said[w] }) {
			out = append(out, own.thing)
		}
	}
	return strings.Join(out, ", ")
}
