package larder

import (
	_ "embed"
	"strings"
)

// Certainty is how surely an item carries its allergens.
type Certainty string

// None means that the table has no allergen of either list for the item. It is never
// shown as "free of".
const (
	Always  Certainty = "always"
	Usually Certainty = "usually"
	May     Certainty = "may"
	None    Certainty = "none"
)

// Allergens are the codes of what an item carries, from the EU's list of fourteen
// and the US's list of nine; see [Categories].
type Allergens struct {
	EU, US    []string
	Certainty Certainty
}

//go:embed allergens.txt
var allergensText string

var allergens = readAllergens(allergensText)

// Assess returns the allergens of an item as cooks type it. known is false for an
// item that is not in the table; the caller shows it as "not assessed".
func Assess(item string) (a Allergens, known bool) {
	for _, phrase := range phrases(item) {
		if a, ok := allergens[phrase]; ok {
			return a, true
		}
		// The item may be another name of a food that is in the table.
		if f, ok := byName[phrase]; ok {
			if a, ok := allergens[singular(f.Name)]; ok {
				return a, true
			}
		}
	}
	return Allergens{}, false
}

// readAllergens reads the embedded table: item | EU codes | US codes | certainty.
func readAllergens(text string) map[string]Allergens {
	m := map[string]Allergens{}
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if line == "" || line[0] == '#' {
			continue
		}
		c := strings.Split(line, "|")
		m[singular(c[0])] = Allergens{EU: codes(c[1]), US: codes(c[2]), Certainty: Certainty(c[3])}
	}
	return m
}

// codes splits a list of codes, nil for none.
func codes(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, ",")
}
