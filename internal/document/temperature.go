package document

import (
	"strings"
	"unicode/utf8"

	"hobside/internal/quantity"
)

// Temperature finds the first temperature in a text, such as "118 °C on the
// thermometer" or "245 °F", and returns it in °C. Of a range it returns the
// lower end, where a limit must hold too. ok is false when there is none.
func Temperature(s string) (celsius float64, ok bool) {
	for at := 0; at < len(s); {
		if !IsDigit(s[at]) {
			at++
			continue
		}
		n, rest, _ := cutFigure(s[at:])
		if isNegative(s[:at]) {
			n = -n
		}
		end := len(s) - len(rest)
		unit := rest
		if r, dash := cutDash(rest); dash {
			if _, r, ok := cutFigure(r); ok {
				unit, end = r, len(s)-len(r)
			}
		}
		switch temperatureUnit(unit) {
		case 'c':
			return n, true
		case 'f':
			return quantity.Celsius(n), true
		}
		at = end
	}
	return 0, false
}

// PlausibleTemperature reports whether a temperature can be one of a kitchen:
// from a blast freezer to a flame.
func PlausibleTemperature(celsius float64) bool { return celsius >= -60 && celsius <= 1200 }

// isNegative reports whether the text before a figure ends with a minus sign. A
// dash after a figure or a letter is the dash of a range or a hyphen.
func isNegative(before string) bool {
	for _, sign := range [...]string{"-", "−", "–"} {
		if head, ok := strings.CutSuffix(before, sign); ok {
			return head == "" || strings.HasSuffix(head, " ")
		}
	}
	return false
}

// temperatureUnit returns the unit that s begins with: 'c', 'f', or 0 for none.
func temperatureUnit(s string) byte {
	s = strings.TrimLeft(s, spaces)
	s, _ = CutAny(s, "°", "º", "degrees ", "degree ", "deg ")
	s = strings.TrimLeft(s, spaces)
	if s == "" {
		return 0
	}
	if next, _ := utf8.DecodeRuneInString(s[1:]); IsWordRune(next) && !HasPrefixFold(s, "celsius") && !HasPrefixFold(s, "fahrenheit") {
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
