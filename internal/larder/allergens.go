package larder

import (
	_ "embed"
	"strings"
)

// Certainty is how surely an item carries an allergen.
type Certainty string

// Never "free of": None means in neither list, as far as the table goes.
const (
	Always  Certainty = "always"
	Usually Certainty = "usually"
	May     Certainty = "may"
	None    Certainty = "none"
)

// Allergens is what an item carries, by the codes of the EU's fourteen and the
// US's nine.
type Allergens struct {
	EU, US    []string
	Certainty Certainty
}

//go:embed allergens.txt
var allergensText string

var allergens = readAllergens(allergensText)

// Assess says which allergens an item carries. known is false for an item that
// nobody has assessed; the caller shows it as "not assessed".
func Assess(item string) (a Allergens, known bool) {
	for _, phrase := range phrases(item) {
		if a, ok := allergens[phrase]; ok {
			return a, true
		}
		// By the food's own name, for its other spellings.
		if f, ok := byName[phrase]; ok {
			if a, ok := allergens[singular(f.Name)]; ok {
				return a, true
			}
		}
	}
	return Allergens{}, false
}

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

func codes(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, ",")
}
