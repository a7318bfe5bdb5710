package card

import (
	"math"
	"strings"
	"unicode/utf8"

	"hobside/internal/quantity"
)

// readDuration reads a time as a cook types it. what says in words what is
// wrong, "" when nothing is.
func readDuration(s string) (d Duration, what string) {
	main, per, grows := strings.Cut(s, "+")
	d, what = readSpan(main)
	if what != "" || !grows {
		return d, what
	}
	times, group, ok := cutWord(per, "per")
	if !ok {
		return d, `"` + strings.TrimSpace(per) + `" does not say per how much`
	}
	more, what := readSpan(times)
	if what != "" {
		return d, what
	}
	d.PerLow, d.PerHigh = more.Low, more.High
	group = strings.TrimSpace(group)
	if group != "" && (group[0] < '0' || group[0] > '9') {
		group = "1 " + group // "per piece"
	}
	a, rest, err := quantity.ParseAmount(group)
	if err != nil || strings.TrimSpace(rest) != "" || a.Unit == nil || a.Qty.Sign() <= 0 {
		return d, `"per ` + group + `" is not an amount`
	}
	d.Per = a
	return d, ""
}

// readSpan reads a time that doesn't grow.
func readSpan(s string) (d Duration, what string) {
	typed := strings.TrimSpace(s)
	s = strings.ToLower(typed)
	if s == "overnight" {
		return Duration{Low: 8 * 3600, High: 14 * 3600, Form: Overnight}, ""
	}
	switch {
	case trimAny(&s, "at least ", "min. ", "≥"):
		d.Form = AtLeast
	case trimAny(&s, "about ", "approx. ", "approximately ", "roughly ", "around ", "ca. ", "circa ", "~"):
		d.Form = About
	}
	low, high, rest, what := readTime(s)
	switch {
	case what != "":
		return d, what
	case strings.TrimSpace(rest) != "":
		return d, `"` + typed + `" is not a time`
	case low > high:
		return d, `"` + typed + `" begins with the longer time`
	}
	d.Low, d.High = low, high
	switch {
	case d.Form == About && low == high:
		d.Low, d.High = low-low/4, high+high/4
	case d.Form == AtLeast:
		d.High = d.Low // the plan waits longer where that helps
	case low != high:
		d.Form = Range
	}
	return d, ""
}

// readTime reads "1 h 30 min", "4–5 h", "1 h–1 h 30 min" off the front of s, in seconds.
func readTime(s string) (low, high int, rest, what string) {
	const most = 2 * 366 * 86400 // two years: longer is a slip of the pen
	parts := 0
	for {
		n, r, ok := readFigure(s)
		if !ok {
			break
		}
		to := n
		if r2, dash := cutDash(r); dash {
			if to, r, ok = readFigure(r2); !ok {
				return 0, 0, s, `a dash with no figure after it`
			}
		}
		unit, r := readTimeUnit(r)
		if unit == 0 {
			return 0, 0, s, `a time without a unit (s, min, h, d)`
		}
		if n*unit > most || to*unit > most {
			return 0, 0, s, "a time of more than two years"
		}
		low, high = low+int(math.Round(n*unit)), high+int(math.Round(to*unit))
		parts++
		s = r
		if r2, dash := cutDash(r); dash && low == high {
			_, to, r, what := readTime(r2)
			return low, to, r, what
		}
	}
	if parts == 0 {
		return 0, 0, s, "no time"
	}
	return low, high, s, ""
}

func readTimeUnit(s string) (seconds float64, rest string) {
	s = strings.TrimLeft(s, " \u00a0\u202f")
	end := 0
	for end < len(s) && s[end] >= 'a' && s[end] <= 'z' {
		end++
	}
	switch s[:end] {
	case "s", "sec", "secs", "second", "seconds":
		seconds = 1
	case "min", "mins", "minute", "minutes":
		seconds = 60
	case "h", "hr", "hrs", "hour", "hours":
		seconds = 3600
	case "d", "day", "days":
		seconds = 86400
	case "wk", "week", "weeks":
		seconds = 7 * 86400
	case "month", "months":
		seconds = 30 * 86400
	}
	return seconds, strings.TrimPrefix(s[end:], ".")
}

// readFigure reads a figure of a time or a temperature: "30", "1.5", "1,5",
// "½", "1 ½". Amounts are exact and read elsewhere; a second more or less is none.
func readFigure(s string) (n float64, rest string, ok bool) {
	s = strings.TrimLeft(s, " \u00a0\u202f")
	i, scale := 0, 0.0
	for i < len(s) && i < 15 {
		c := s[i]
		if c >= '0' && c <= '9' {
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
		if ok && scale == 0 && (c == '.' || c == ',') && i+1 < len(s) && s[i+1] >= '0' && s[i+1] <= '9' {
			scale = 0.1
			i++
			continue
		}
		break
	}
	rest = s[i:]
	r, size := utf8.DecodeRuneInString(strings.TrimLeft(rest, " "))
	if part := vulgar(r); part > 0 {
		return n + part, strings.TrimLeft(rest, " ")[size:], true
	}
	return n, rest, ok
}

func vulgar(r rune) float64 {
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
	s = strings.TrimLeft(s, " \u00a0\u202f")
	for _, dash := range [...]string{"–", "-", "—", "to "} {
		if rest, ok = strings.CutPrefix(s, dash); ok {
			return rest, true
		}
	}
	return s, false
}

// trimAny takes the first of the prefixes that s begins with off it.
func trimAny(s *string, prefixes ...string) bool {
	for _, p := range prefixes {
		if rest, ok := strings.CutPrefix(*s, p); ok {
			*s = rest
			return true
		}
	}
	return false
}

// cutWord cuts s at a word that stands alone.
func cutWord(s, word string) (before, after string, ok bool) {
	for at := 0; ; {
		i := strings.Index(s[at:], word)
		if i < 0 {
			return s, "", false
		}
		i += at
		end := i + len(word)
		if (i == 0 || s[i-1] == ' ') && (end == len(s) || s[end] == ' ') {
			return s[:i], s[end:], true
		}
		at = end
	}
}

// duration reads the value of a fact as a time, with a problem when it is none.
func (d *Doc) duration(f Fact) Duration {
	t, what := readDuration(f.Value)
	if what != "" {
		d.Err(f.ValueAt, f.Word+": "+what, "", `write it like "10 min", "1 h 30 min", "4–5 h", "at least 2 h", "overnight", "5 min + 2 min per 6 pieces"`)
		return Duration{}
	}
	return t
}

// ParseSeconds reads one time that stands alone, "40 min" or "1 h 30 min", in
// seconds.
func ParseSeconds(s string) (seconds int, ok bool) {
	low, high, rest, what := readTime(s)
	if what != "" || strings.TrimSpace(rest) != "" || low != high || low <= 0 {
		return 0, false
	}
	return low, true
}
