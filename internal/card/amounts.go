package card

import (
	"errors"
	"strings"
	"unicode/utf8"

	"hobside/internal/quantity"
)

// Amount reads an amount off the front of s, which stands at offset at. What
// follows it is returned trimmed. ok is false when a problem was made.
func (d *Doc) Amount(s string, at int) (a quantity.Amount, rest string, ok bool) {
	a, rest, err := quantity.ParseAmount(s)
	if err == nil {
		return a, rest, true
	}
	var e *quantity.AmountError
	if !errors.As(err, &e) {
		d.Err(at, err.Error(), "", "")
		return a, s, false
	}
	runes := 0
	for i := range s { // its offset counts runes
		if runes == e.Offset {
			at += i
			break
		}
		runes++
	}
	d.Err(at, `"`+clip(s)+`": `+e.Msg, e.Hint, e.Do)
	return a, s, false
}

// beginsWithFigure says whether a line begins with what is meant for an amount.
func beginsWithFigure(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	switch {
	case r >= '0' && r <= '9', r == '-', r == '−', r == '~', r == '.', vulgar(r) > 0:
		return true
	}
	for _, w := range [...]string{"to taste", "as needed", "a little ", "some ", "about ", "approx", "ca. ", "c. "} {
		if hasFold(s, w) {
			return true
		}
	}
	return false
}

// clip shortens what is quoted in a problem.
func clip(s string) string {
	const most = 40
	s = strings.TrimSpace(s)
	if len(s) <= most {
		return s
	}
	cut := most
	for cut > 0 && !utf8.RuneStart(s[cut]) {
		cut--
	}
	return s[:cut] + "…"
}
