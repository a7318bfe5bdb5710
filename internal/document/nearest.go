package document

import (
	"strings"

	"hobside/internal/quantity"
)

// Nearest returns the entry of words that the author most likely meant by word,
// or "" when none is near: a wrong suggestion is worse than none.
func Nearest(word string, words []string) string {
	best, bestAt := "", 3
	for _, w := range words {
		limit := 2
		if len(word) <= 4 {
			limit = 1
		}
		if n := quantity.Distance(word, w, limit); n <= limit && n < bestAt && n < len(w) {
			best, bestAt = w, n
		}
	}
	if best == "" && len(word) >= 3 {
		for _, w := range words { // an unfinished word: "butt" for "butter"
			if strings.HasPrefix(w, word) {
				return w
			}
		}
	}
	return best
}
