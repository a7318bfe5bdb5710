package convert

import (
	"regexp"
	"unicode/utf8"

	"hobside/internal/document"
)

var (
	// sharePhrase is a share of an item that bold words of a card can say.
	sharePhrase = regexp.MustCompile(`(?:half (?:of )?the |half of |two thirds of the |a third of the |a quarter of the |the rest of the |rest of the )$`)
	// notAll are words before a name that say how little of it, or that it is something else.
	notAll = regexp.MustCompile(`(?:a little |a few |some (?:of the )?|most of the |a pinch of |a drizzle of |a splash of |a knob of |more |extra |remaining |other |a spoonful of |tablespoons? of (?:the )?|tbsp (?:of )?(?:the )?|tsp (?:of )?(?:the )?|teaspoons? of (?:the )?|g (?:of )?(?:the )?|ml (?:of )?(?:the )?|cups? of (?:the )?|\d |without |no )$`)
)

// isWordEnd reports whether a text ends within a word.
func isWordEnd(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return document.IsWordRune(r) || r == '-' || r == '\''
}

// isWordBegin reports whether a text goes on with a word.
func isWordBegin(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return document.IsWordRune(r) || r == '-'
}
