package document

import (
	"strings"
	"unicode/utf8"
)

// spaces are the spaces that may stand inside an amount: the plain one, the
// no-break space and the narrow no-break space.
const spaces = " \u00a0\u202f"

// cutFigure reads the figure of a time or a temperature off the front of s:
// "30", "1.5", "1,5", "½", "1 ½". The result is a float: for times and
// temperatures that is exact enough. Amounts are exact and read by quantity.
func cutFigure(s string) (n float64, rest string, ok bool) {
	s = strings.TrimLeft(s, spaces)
	i, scale := 0, 0.0
	for i < len(s) && i < 15 {
		c := s[i]
		if IsDigit(c) {
			if scale > 0 {
				n += float64(c-'0') * scale
				scale /= 10
			} else {
				n = n*10 + float64(c-'0')
			}
			i++
			ok = true
			continue
		}
		if ok && scale == 0 && (c == '.' || c == ',') && i+1 < len(s) && IsDigit(s[i+1]) {
			scale = 0.1
			i++
			continue
		}
		break
	}
	rest = s[i:]
	r, size := utf8.DecodeRuneInString(strings.TrimLeft(rest, " "))
	if part := vulgarFraction(r); part > 0 {
		return n + part, strings.TrimLeft(rest, " ")[size:], true
	}
	return n, rest, ok
}

// vulgarFraction returns the value of a fraction that is one character, and 0
// for any other.
func vulgarFraction(r rune) float64 {
	switch r {
	case '½':
		return 0.5
	case '¼':
		return 0.25
	case '¾':
		return 0.75
	case '⅓':
		return 1.0 / 3
	case '⅔':
		return 2.0 / 3
	}
	return 0
}

// cutDash takes a dash, or "to", off the front of s.
func cutDash(s string) (rest string, ok bool) {
	return CutAny(strings.TrimLeft(s, spaces), "–", "-", "—", "to ")
}
