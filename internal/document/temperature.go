package document

import (
	"strings"
	"unicode/utf8"

	"hobside/internal/quantity"
)

// Temperature finds the first temperature in a text, such as "118 °C on the
// thermometer", "245 °F" or "gas mark 6", and returns it in °C. Degrees come before a gas mark: "180 °C/gas 4". Of a range it returns the
// lower end, where a limit must hold too. ok is false when there is none, and for a figure
// that can be read in two ways: "1,800 °C".
func Temperature(s string) (celsius float64, ok bool) {
	for at := 0; at < len(s); {
		if !IsDigit(s[at]) {
			at++
			continue
		}
		if bothReadings(s[at:]) != "" {
			return 0, false
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
	return gasMark(s)
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

// ParseTemperature reads a text that is one temperature and nothing more, "63 °C",
// "−18" or "145F", in °C. A figure alone is in unit, "°C" or "°F". ok is false for
// anything else.
func ParseTemperature(s, unit string) (celsius float64, ok bool) {
	s = strings.TrimSpace(s)
	s, negative := CutAny(s, "-", "−", "–")
	n, rest, ok := cutFigure(s)
	if !ok || bothReadings(s) != "" {
		return 0, false
	}
	if negative {
		n = -n
	}
	if strings.TrimSpace(rest) == "" {
		rest = unit
	}
	degrees, rest := cutTemperatureUnit(rest)
	switch {
	case strings.TrimSpace(rest) != "":
		return 0, false
	case degrees == 'f':
		n = quantity.Celsius(n)
	}
	return n, degrees != 0
}

// temperatureUnit returns the unit that s begins with: 'c', 'f', or 0 for none.
func temperatureUnit(s string) byte {
	unit, _ := cutTemperatureUnit(s)
	return unit
}

// cutTemperatureUnit takes a unit of temperature off the front of s. unit is 'c',
// 'f', or 0 for none.
func cutTemperatureUnit(s string) (unit byte, rest string) {
	s = strings.TrimLeft(s, spaces)
	s, _ = CutAny(s, "°", "º", "degrees ", "degree ", "deg ")
	s = strings.TrimLeft(s, spaces)
	for _, name := range [...]string{"celsius", "fahrenheit", "c", "f"} {
		if !HasPrefixFold(s, name) {
			continue
		}
		rest = s[len(name):]
		if next, _ := utf8.DecodeRuneInString(rest); IsWordRune(next) {
			return 0, s
		}
		return name[0], rest
	}
	return 0, s
}
