package larder

import (
	"slices"
	"strings"
)

var (
	// excepts are the words before what a guest can have although it is of what they avoid.
	excepts = phrases("but; except; except for; excepting; apart from; aside from; other than; who eats; who does eat; that eats; although; though; unless")
	// allows and allowed are words around what a guest can have.
	allows  = phrases("eats; eat; also eats; still eats; does eat; do eat; will eat; can eat; can have; can tolerate; may have; may eat; tolerates; likes; is fine with; are fine with; fine with; is ok with; ok with; okay with; he eats; she eats; i eat; they eat")
	allowed = phrases("is fine; are fine; fine; is ok; are ok; ok; is okay; are okay; okay; is allowed; are allowed; allowed; is good; are good; is all right; are all right; is alright; are alright; is permitted; is tolerated; are tolerated")
)

// phrases returns the phrases of a list, each as its words.
func phrases(list string) [][]string {
	var out [][]string
	for phrase := range strings.SplitSeq(list, ";") {
		out = append(out, strings.Fields(phrase))
	}
	slices.SortStableFunc(out, func(a, b []string) int { return len(b) - len(a) })
	return out
}

// cutException splits a guest's words at the first that begins an exception: "no nuts" and
// "coconut is fine" of "no nuts but coconut is fine".
func cutException(text string) (less, but []string, ok bool) {
	list := sayingOf(text).list
	for i := 1; i < len(list); i++ {
		for _, mark := range excepts {
			if rest := list[i:]; len(rest) > len(mark) && slices.Equal(rest[:len(mark)], mark) && !everything(list[:i]) {
				return list[:i], rest[len(mark):], true
			}
		}
	}
	return nil, nil, false
}

// everything reports whether words are those of a guest who eats all "but" something.
func everything(list []string) bool {
	return slices.Contains([]string{"anything", "everything", "all"}, list[len(list)-1])
}

// listsExceptions reports whether an exception has a list of things behind it.
func listsExceptions(text string) bool {
	_, but, ok := cutException(text)
	return ok && but[0] != "no" && slices.ContainsFunc(but, func(word string) bool {
		return word == "and" || word == "or" || word == "nor" || word == "plus"
	})
}

// excepting returns what a guest avoids who can have something of it. What is excepted must
// be wholly of what can be taken off, a class of animals or an allergen ("vegetarian who eats
// fish"), or nothing of what they avoid ("no nuts but coconut"): ok is false for all else,
// "no milk but butter is fine", which no rule here checks.
func (fs *Foods) excepting(less, but []string) (a Avoid, ok bool) {
	a, ok = fs.Understand(strings.Join(less, " "))
	if !ok {
		return Avoid{}, false
	}
	for _, words := range allows {
		if len(but) > len(words) && slices.Equal(but[:len(words)], words) {
			but = but[len(words):]
			break
		}
	}
	for _, words := range allowed {
		if n := len(but) - len(words); n > 0 && slices.Equal(but[n:], words) {
			but = but[:n]
			break
		}
	}
	x, ok := fs.understood(strings.Join(but, " "))
	if !ok || x.diet || len(x.Heats) > 0 || a.Unchecked != "" {
		return Avoid{}, false
	}
	words := a.Words + " except " + x.Words
	if len(x.Foods) > 0 && a.Of(x.Words, fs) != (Verdict{}) {
		return Avoid{}, false
	}
	if a.Meets(x) {
		if !within(a.codes, x.codes) || !within(a.Animals, x.Animals) {
			return Avoid{}, false
		}
		a = a.less(x)
	}
	if len(a.codes)+len(a.Animals)+len(a.Foods)+len(a.Heats) == 0 {
		return Avoid{}, false
	}
	a.Words = words
	return a, true
}

// less returns what is avoided without the allergens and classes of animals of another.
func (a Avoid) less(x Avoid) Avoid {
	a.codes, a.Animals, a.keys = without(a.codes, x.codes), without(a.Animals, x.Animals), without(a.keys, x.keys)
	a.Allergens = slices.DeleteFunc(slices.Clone(a.Allergens), func(c Category) bool { return !a.Code(c.List, c.Code) })
	return a
}

// without returns those of some that are not among others.
func without[T comparable](some, others []T) []T {
	return slices.DeleteFunc(slices.Clone(some), func(x T) bool { return slices.Contains(others, x) })
}
