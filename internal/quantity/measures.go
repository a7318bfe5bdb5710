package quantity

import (
	"slices"
	"strings"
	"unicode"
)

// Measures say whose pints a text means, where it does not say itself.
type Measures uint8

const (
	USMeasures Measures = iota // a pint is 473 ml
	UKMeasures                 // a pint is 568 ml; fluid ounces, quarts and gallons go with it
)

// MeasuresOf returns the measures of a country by the word of a file's "rules": "us", "uk".
// Any other word gives those of the US.
func MeasuresOf(rules string) Measures {
	if strings.EqualFold(strings.TrimSpace(rules), "uk") {
		return UKMeasures
	}
	return USMeasures
}

// british maps the US units that have an imperial one of the same name to that. Spoons and
// cups are not among them: a British spoon holds 1.4 % more than a US one, and a cup is no
// British measure.
var british = indexBritish()

// indexBritish returns the map.
func indexBritish() map[*Unit]*Unit {
	m := map[*Unit]*Unit{}
	for _, u := range units {
		if of, ok := byWord["imperial "+u.Name]; ok && u.Dim == Volume && u.System == US {
			m[u] = of
		}
	}
	return m
}

// unit returns the unit that a typed one is by m: of "pint" the imperial pint by
// [UKMeasures]. "US pint" is the same by both.
func (m Measures) unit(u *Unit, typed string) *Unit {
	of, ok := british[u]
	if m != UKMeasures || !ok {
		return u
	}
	first, _, more := strings.Cut(typed, " ")
	if first = strings.ToLower(strings.ReplaceAll(first, ".", "")); more && (first == "us" || first == "american") {
		return u
	}
	return of
}

// BarePint returns the first word of a text that is another unit by [UKMeasures] than by
// [USMeasures], and does not say which of the two it is; "" where there is none.
func BarePint(text string) string {
	before := ""
	for word := range strings.FieldsFuncSeq(text, func(r rune) bool { return !unicode.IsLetter(r) && r != '.' }) {
		low := strings.ToLower(strings.Trim(word, "."))
		if u, ok := byWord[low]; ok && british[u] != nil && !slices.Contains(nationWords, before) {
			return word
		}
		if before == "fl" && low == "oz" || before == "fluid" && strings.HasPrefix(low, "ounce") {
			return "fl oz"
		}
		if low != "fl" && low != "fluid" || !slices.Contains(nationWords, before) {
			before = strings.ReplaceAll(low, ".", "")
		}
	}
	return ""
}

// nationWords are the words of nations.
var nationWords = indexNations()

// indexNations returns them.
func indexNations() (words []string) {
	for _, n := range nations {
		words = append(words, n.word)
	}
	return words
}
