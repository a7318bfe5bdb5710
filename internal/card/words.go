package card

import (
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

// size returns the size that a phrase of the preparation says one has: "3 large" of a table,
// "2 onions, large". It is "" where the preparation says none.
func (it *Item) size() string {
	for part := range strings.SplitSeq(it.Prep, ",") {
		part = strings.TrimSuffix(strings.TrimSpace(part), " ones")
		if size := larder.SizeOf(part); size != "" && (saysSize(part) || part == "extra large" || part == "very large") {
			return size
		}
	}
	return ""
}
