package safety

import (
	"slices"
	"strings"

	"hobside/internal/larder"
)

// shortClass are other words for a class.
var shortClass = map[string]Class{"meat": Beef, "vegetables": Vegetable, "soup": Stock, "sauce": Stock, "milk": Stock, "eggs": Egg, "fish": Fish, "cooked": Cooked,
	"food": Cooked, "mince": Minced, "stew": Cooked, "puree": Cooked, "custard": Stock, "curry": Cooked, "ragu": Minced, "potatoes": Vegetable}

// stateWords may stand with the name of a food that cools and change nothing: what is
// cooked is of the class that it was when it was raw.
const stateWords = "cooked, roast, roasted, boiled, braised, poached, steamed, stewed, grilled, fried, baked, hot, warm, fresh, raw, whole, boned, rolled," +
	" brown, white, dark, light, strained, reduced, sliced, diced, chopped, mashed, pulled, large, small, my, our, some"

// ends reports whether a phrase that is no food begins at the head of the rest.
func (p *vesselParser) ends() bool {
	t := p.rest[0]
	if isFigure(t) || slices.Contains([]string{"from", "at", "in", "on", "over", "and", "as", "of", "a", "thin", "thick", "clear", "stirred", "×"}, t) {
		return true
	}
	for _, place := range placeWords {
		if p.at(place.words) {
			return true
		}
	}
	return p.at("roll") || p.at("ball") || hasAny(p.rest[:1], vesselNouns)
}

// food reads the name of a food: every word up to the next phrase.
func (p *vesselParser) food() error {
	n := 1
	for head := *p; n < len(p.rest); n++ {
		if head.rest = p.rest[n:]; head.ends() {
			break
		}
	}
	words := p.rest[:n]
	p.rest = p.rest[n:]
	class, ok := classNamed(words)
	if !ok {
		return p.unknown(strings.Join(words, " "))
	}
	if p.v.Class != NotKnown && p.v.Class != class {
		return p.twice("what it is")
	}
	p.v.Class = class
	if slices.Equal(words, []string{"milk"}) {
		p.v.Thin = !p.v.Thick
	}
	return nil
}

// classNamed returns the class of a food that cools by its name: that of a class,
// another word for one, or a food whose every word is known. ok is false where a word is
// not understood.
func classNamed(words []string) (class Class, ok bool) {
	if c, ok := classWord(words); ok {
		return c, true
	}
	var bare []string
	for _, w := range words {
		if !hasAny([]string{w}, stateWords) {
			bare = append(bare, w)
		}
	}
	if c, ok := classWord(bare); ok {
		return c, true
	}
	name := strings.Join(bare, " ")
	class = ClassOf(name)
	if f, known := larder.Find(name); known {
		if class == NotKnown && f.Section == "vegetables" {
			class = Vegetable
		}
		return class, class != NotKnown
	}
	for _, w := range bare {
		if !isClassWord(w) {
			return NotKnown, false
		}
	}
	return class, class != NotKnown
}

// classWord returns the class that is named by itself.
func classWord(words []string) (Class, bool) {
	name := strings.Join(words, " ")
	if c, ok := shortClass[name]; ok {
		return c, true
	}
	for _, c := range Classes() {
		if is := strings.Join(tokens(string(c)), " "); name == is || name == is+"s" {
			return c, true
		}
	}
	return NotKnown, false
}

// isClassWord reports whether a word is one of the names of the table of classes.
func isClassWord(word string) bool {
	for _, row := range classWords {
		for phrase := range strings.SplitSeq(row.words, ",") {
			for w := range strings.FieldsSeq(phrase) {
				if same(word, w) {
					return true
				}
			}
		}
	}
	return false
}
