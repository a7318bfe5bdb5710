package card

import (
	"strings"

	"hobside/internal/document"
)

// held reads how long a core is held at its temperature, in seconds: "core 57 °C for
// 36 min", "core 57 °C, 36 min", "hold 36 min at core 57 °C". It returns 0 where no time is
// said, and adds a problem for "for" with a figure that is no time. Of a range it returns
// the lower end. "Within 2 h", "after 20 min" and "rest 10 min" are no holding times.
func (p *parser) held(f document.Fact) int {
	low := strings.ToLower(f.Value)
	for at := range low {
		after, said := afterHold(low, at)
		if !document.BeginsWithAmount(after) {
			continue
		}
		seconds, _, _, what := document.CutTime(strings.TrimPrefix(after, "about "))
		if what == "" && seconds > 0 {
			return seconds
		}
		if _, degrees := document.Temperature(after); said && !degrees {
			p.Err(f.ValueAt, `"`+document.Clip(f.Value)+`" gives no time that it is held`, "", `write it with its unit, like "check: core 60 °C for 12 min"`)
			return 0
		}
	}
	return 0
}

// afterHold returns the text after what may stand before a holding time at a place of a
// text in lower case: a word ("for", "held"; said is then true), a sign or the unit of the
// temperature; "" where there is none.
func afterHold(low string, at int) (after string, said bool) {
	before, rest := low[:at], low[at:]
	if before == "" || strings.HasSuffix(before, " ") {
		for _, w := range [...]string{"for ", "held ", "hold ", "holding "} {
			if after, ok := strings.CutPrefix(rest, w); ok {
				return withoutHold(after), true
			}
		}
	}
	switch {
	case strings.ContainsRune(",;(/×x+", rune(rest[0])), strings.HasPrefix(rest, "×"):
		return withoutHold(strings.TrimLeft(rest, ",;(/×x+ ")), false
	case rest[0] == ' ' && endsInUnit(before):
		return withoutHold(rest[1:]), false
	}
	return "", false
}

// withoutHold returns a text without the words that may stand before a time.
func withoutHold(s string) string {
	for _, w := range [...]string{"and ", "held ", "hold ", "for ", "at least "} {
		s = strings.TrimPrefix(strings.TrimLeft(s, " "), w)
	}
	return s
}

// endsInUnit reports whether a text in lower case ends with a unit of temperature.
func endsInUnit(s string) bool {
	for _, unit := range [...]string{"°c", "°f", " c", " f", "celsius", "fahrenheit"} {
		if strings.HasSuffix(s, unit) {
			return true
		}
	}
	n := len(s)
	return n > 1 && (s[n-1] == 'c' || s[n-1] == 'f') && document.IsDigit(s[n-2])
}
