package larder

import (
	"slices"
	"strings"
)

// listMarks part the words of a guest who avoids more than one thing.
const listMarks = ",;:/&+()"

// UnderstandList returns what a list of guests' words means together: "vegetarian, nut
// allergy and no celery". Each part goes through [Understand]. unknown is the first part
// that is not understood, "" when all are: then a has what is known of the others, and
// the guest must be asked again. Of an empty text both are empty.
func (fs *Foods) UnderstandList(text string) (a Avoid, unknown string) {
	if a, ok := fs.Understand(text); ok {
		return a, ""
	}
	for _, part := range fs.phrases(text) {
		if one, ok := fs.Understand(part); ok {
			a = a.and(one)
		} else if unknown == "" {
			unknown = part
		}
	}
	if len(a.Words) == 0 && unknown == "" {
		unknown = text
	}
	return a, unknown
}

// Exclusions returns the words of each thing that a guest avoids, without "no" and the
// like: "nuts" and "shellfish" of "allergic to nuts and shellfish". ok is false where a part
// is not understood; then nothing of the text may be used.
func (fs *Foods) Exclusions(text string) (words []string, ok bool) {
	if a, ok := fs.Understand(text); ok {
		return []string{a.Words}, true
	}
	for _, part := range fs.phrases(text) {
		a, ok := fs.Understand(part)
		if !ok {
			return nil, false
		}
		words = append(words, a.Words)
	}
	return words, len(words) > 0
}

// phrases splits a list at its marks, and at "and", "or" and the like.
func (fs *Foods) phrases(text string) []string {
	var out []string
	for part := range strings.FieldsFuncSeq(text, func(r rune) bool { return strings.ContainsRune(listMarks, r) }) {
		if _, ok := fs.Understand(part); ok { // "sulphur dioxide and sulphites" is one
			out = append(out, strings.TrimSpace(part))
			continue
		}
		if listsExceptions(part) { // "no nuts but coconut and chestnuts": not to be read in parts
			out = append(out, strings.TrimSpace(part))
			continue
		}
		var words []string
		end := func() {
			if len(words) > 0 {
				out = append(out, strings.Join(words, " "))
			}
			words = nil
		}
		list := strings.Fields(part)
		for i, word := range list {
			switch lower := strings.ToLower(word); {
			case lower == "and", lower == "or", lower == "nor", lower == "plus", lower == "but" && i+1 < len(list) && strings.EqualFold(list[i+1], "no"):
				end()
			default:
				words = append(words, word)
			}
		}
		end()
	}
	return out
}

// and returns what two guests' words avoid together.
func (a Avoid) and(b Avoid) Avoid {
	if a.Words == "" {
		return b
	}
	return Avoid{
		Words:      a.Words + ", " + b.Words,
		diet:       a.diet || b.diet,
		Allergens:  union(a.Allergens, b.Allergens),
		Animals:    union(a.Animals, b.Animals),
		Heats:      union(a.Heats, b.Heats),
		Foods:      union(a.Foods, b.Foods),
		codes:      union(a.codes, b.codes),
		mayCodes:   union(a.mayCodes, b.mayCodes),
		mayAnimals: union(a.mayAnimals, b.mayAnimals),
		Unchecked:  strings.Join(slices.DeleteFunc([]string{a.Unchecked, b.Unchecked}, func(s string) bool { return s == "" }), "; "),
		keys:       union(a.keys, b.keys),
	}
}

// union returns a with what only b has behind it.
func union[T comparable](a, b []T) []T {
	out := slices.Clone(a)
	for _, x := range b {
		if !slices.Contains(out, x) {
			out = append(out, x)
		}
	}
	return out
}
