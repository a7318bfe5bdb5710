package card

import (
	"cmp"
	"strings"

	"hobside/internal/document"
	"hobside/internal/larder"
)

// words takes a name apart into its words, lower case and singular, so that
// "Chicken Backs" and "chicken back" are the same. What is in brackets is
// left out.
func words(name string) []string {
	out := make([]string, 0, 1+strings.Count(name, " "))
	depth, start := 0, -1
	flush := func(end int) {
		if start >= 0 {
			if w := singular(strings.ToLower(name[start:end])); w != "" {
				out = append(out, w)
			}
			start = -1
		}
	}
	for i, r := range name {
		switch {
		case r == '(':
			flush(i)
			depth++
		case r == ')':
			flush(i)
			depth = max(0, depth-1)
		case depth > 0:
		case document.IsWordRune(r):
			if start < 0 {
				start = i
			}
		default:
			flush(i)
		}
	}
	flush(len(name))
	return out
}

// singular takes the plural off a word. It need not be right, only the same
// for both forms: "asparagus" may well become "asparagu".
func singular(w string) string {
	switch {
	case len(w) <= 3 || !strings.HasSuffix(w, "s") || strings.HasSuffix(w, "ss"):
		return w
	case strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case strings.HasSuffix(w, "oes"), strings.HasSuffix(w, "ches"), strings.HasSuffix(w, "shes"), strings.HasSuffix(w, "sses"), strings.HasSuffix(w, "xes"):
		return w[:len(w)-2]
	}
	switch w {
	case "leaves", "loaves", "halves", "calves", "shelves":
		return w[:len(w)-3] + "f"
	}
	return w[:len(w)-1]
}

// taken returns what a phrase of the preparation says is taken of an item: "juice" of "1
// lemon, juice", "zest" of "2 limes, grated zest"; "" for all of it.
func (it *Item) taken() string {
	for part := range strings.SplitSeq(it.Prep, ",") {
		part = strings.ToLower(strings.TrimSpace(part))
		juice := part == "juiced" || part == "freshly squeezed" || saysTaken(part) && strings.Contains(part, "juice")
		switch {
		case juice && (strings.Contains(part, "zest") || strings.Contains(part, "rind") || strings.Contains(part, "peel")):
			return ""
		case juice:
			return larder.Juice
		case saysTaken(part), part == "zested":
			return larder.Zest
		}
	}
	return ""
}

// takenWord returns the word by which steps name what is taken of an item: they may say
// "lemon juice" of "1 lemon, juice". It is empty where all of it is used.
func (it *Item) takenWord() []string {
	if it.taken() == "" {
		return nil
	}
	for _, w := range words(it.Prep) {
		switch w {
		case "juice", "zest", "rind", "peel":
			return []string{w}
		case "juiced":
			return []string{"juice"}
		case "zested":
			return []string{"zest"}
		}
	}
	return []string{"juice"} // "freshly squeezed"
}

// size returns what is taken of an item, or else the size that one has; "" where the
// preparation says neither.
func (it *Item) size() string { return cmp.Or(it.taken(), it.bought()) }

// bought returns the size that a phrase of the preparation says one has: "3 large" of a
// table, "2 onions, large". It is "" where the preparation says none.
func (it *Item) bought() string {
	for part := range strings.SplitSeq(it.Prep, ",") {
		part = strings.TrimSuffix(strings.TrimSpace(part), " ones")
		if size := larder.SizeOf(part); size != "" && (saysSize(part) || part == "extra large" || part == "very large") {
			return size
		}
	}
	return ""
}
