package card

import (
	"strings"

	"hobside/internal/quantity"
)

// Nearest returns the one of words that word was most likely meant to be, or ""
// when none is near: a wrong guess is worse than none.
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
		for _, w := range words { // half a word: "butt" for "butter"
			if strings.HasPrefix(w, word) {
				return w
			}
		}
	}
	return best
}
