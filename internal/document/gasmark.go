package document

import (
	"math"
	"strings"

	"hobside/internal/quantity"
)

// gasMark finds a mark of a gas oven in a text, "gas mark 6" or "gas 6", in °C. ok is
// false when there is none, and for a mark that no oven has.
//
// From mark 1 up each mark is 25 °F: mark 1 is 275 °F. Below it each half of a mark
// is 25 °F less: ½ is 250 °F. GNU Units 2.22, definitions.units.
func gasMark(s string) (celsius float64, ok bool) {
	at := indexFold(s, "gas")
	if at < 0 {
		return 0, false
	}
	rest := strings.ToLower(strings.TrimLeft(s[at+len("gas"):], " "))
	if after, ok := CutAny(rest, "mark ", "mk ", "no. ", "mark", "mk"); ok {
		rest = after
	}
	rest = strings.TrimLeft(rest, spaces)
	if whole, after, ok := strings.Cut(rest, "/"); ok && whole == "1" && after != "" && (after[0] == '2' || after[0] == '4') {
		rest = map[byte]string{'2': "½", '4': "¼"}[after[0]] + after[1:]
	}
	n, after, ok := cutFigure(rest)
	next := strings.TrimLeft(after, spaces)
	switch {
	case !ok, next != "" && temperatureUnit(next) != 0, n < 0.25 || n > 10:
		return 0, false
	case n >= 1:
		return quantity.Celsius(25*(n-1) + 275), true
	}
	return quantity.Celsius(25*math.Log2(n) + 275), true
}

// indexFold returns where a word of ASCII letters is in s in either case, −1 when
// it does not.
func indexFold(s, word string) int {
	for i := 0; i+len(word) <= len(s); i++ {
		before := i == 0 || !IsWordRune(rune(s[i-1]))
		if before && strings.EqualFold(s[i:i+len(word)], word) {
			return i
		}
	}
	return -1
}
