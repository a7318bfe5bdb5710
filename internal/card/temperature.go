package card

import (
	"strings"

	"hobside/internal/quantity"
)

// Temperature finds the first temperature in a text, "118 °C on the thermometer"
// or "245 °F", as °C; of a range the lower end. ok is false where none stands.
func Temperature(s string) (celsius float64, ok bool) { return readTemp(s) }

// readTemp finds the first temperature in s, in °C. Of a range it is the lower
// end: a limit must hold there too.
func readTemp(s string) (celsius float64, ok bool) {
	for at := 0; at < len(s); {
		if s[at] < '0' || s[at] > '9' {
			at++
			continue
		}
		n, rest, _ := readFigure(s[at:])
		if minus(s[:at]) {
			n = -n
		}
		end := len(s) - len(rest)
		unit := rest
		if r, dash := cutDash(rest); dash {
			if _, r, ok := readFigure(r); ok {
				unit, end = r, len(s)-len(r)
			}
		}
		switch tempUnit(unit) {
		case 'c':
			return n, true
		case 'f':
			return quantity.Celsius(n), true
		}
		at = end
	}
	return 0, false
}

// minus says whether the figure after before is below zero, and not the end of
// a range or of a word with a hyphen.
func minus(before string) bool {
	for _, sign := range [...]string{"-", "−", "–"} {
		if head, ok := strings.CutSuffix(before, sign); ok {
			return head == "" || strings.HasSuffix(head, " ")
		}
	}
	return false
}

// tempUnit says whether s begins with a unit of temperature: 'c', 'f' or 0.
func tempUnit(s string) byte {
	s = strings.TrimLeft(s, " \u00a0\u202f")
	trimAny(&s, "°", "º", "degrees ", "degree ", "deg ")
	s = strings.TrimLeft(s, " \u00a0\u202f")
	if s == "" || len(s) > 1 && isWordRune(rune(s[1])) && !hasFold(s, "celsius") && !hasFold(s, "fahrenheit") {
		return 0
	}
	switch s[0] {
	case 'C', 'c':
		return 'c'
	case 'F', 'f':
		return 'f'
	}
	return 0
}

func hasFold(s, prefix string) bool {
	return len(s) >= len(prefix) && strings.EqualFold(s[:len(prefix)], prefix)
}

// sane says whether a temperature can be one of a kitchen: from a blast
// freezer to a flame.
func sane(celsius float64) bool { return celsius >= -60 && celsius <= 1200 }
