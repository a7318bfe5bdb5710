package document

import (
	"errors"
	"math"
	"strings"

	"hobside/internal/quantity"
)

// Duration reads the value of a fact as a time, and adds a problem when it is
// none.
func (f *File) Duration(fact Fact) Duration {
	d, what := readDuration(fact.Value)
	if what == "" && d.IsZero() {
		what = `"` + fact.Value + `" is no time at all`
	}
	if what != "" {
		f.Err(fact.ValueAt, fact.Word+": "+what, "", `write it like "10 min", "1 h 30 min", "4–5 h", "at least 2 h", "overnight", "5 min + 2 min per 6 pieces"`)
		return Duration{}
	}
	return d
}

// ParseSeconds reads one exact time with nothing after it, "40 min" or "1 h
// 30 min", in seconds. ok is false for anything else.
func ParseSeconds(s string) (seconds int, ok bool) {
	low, high, rest, what := CutTime(s)
	if what != "" || strings.TrimSpace(rest) != "" || low != high || low <= 0 {
		return 0, false
	}
	return low, true
}

// readDuration reads a time as a cook types it. what says in words what is
// wrong, "" when nothing is.
func readDuration(s string) (d Duration, what string) {
	main, per, grows := strings.Cut(s, "+")
	if _, _, all := CutWord(s, "per"); all && !grows { // "2 min per 6 plates": nothing but the part that grows
		per, grows = s, true
	} else if d, what = readFixed(main); what != "" || !grows {
		return d, what
	}
	times, group, ok := CutWord(per, "per")
	if !ok {
		return d, `"` + strings.TrimSpace(per) + `" does not say per how much`
	}
	more, what := readFixed(times)
	if what != "" {
		return d, what
	}
	d.PerLow, d.PerHigh = more.Low, more.High
	group = strings.TrimSpace(group)
	if group != "" && !IsDigit(group[0]) {
		group = "1 " + group // "per piece"
	}
	a, rest, err := quantity.ParseAmount(group)
	var doubt *quantity.AmountError
	if errors.As(err, &doubt) && doubt.Doubtful {
		return d, `"per ` + group + `" ` + doubt.Msg
	}
	if err != nil || strings.TrimSpace(rest) != "" || a.Unit == nil || a.Qty.Sign() <= 0 {
		return d, `"per ` + group + `" is not an amount`
	}
	d.Per = a
	return d, ""
}

// readFixed reads a time that does not grow with the batch.
func readFixed(s string) (d Duration, what string) {
	typed := strings.TrimSpace(s)
	s = strings.ToLower(typed)
	if s == "overnight" {
		return Duration{Low: 8 * 3600, High: 14 * 3600, Form: Overnight}, ""
	}
	if rest, ok := CutAny(s, "at least ", "min. ", "≥"); ok {
		d.Form, s = AtLeast, rest
	} else if rest, ok := CutAny(s, "about ", "approx. ", "approximately ", "roughly ", "around ", "ca. ", "circa ", "~"); ok {
		d.Form, s = About, rest
	}
	low, high, rest, what := CutTime(s)
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

// CutTime reads a time in lower case off the front of s, such as "1 h 30 min",
// "4–5 h" or "1 h–1 h 30 min", in seconds. What says in words what is wrong, ""
// when nothing is.
func CutTime(s string) (low, high int, rest, what string) {
	const most = 2 * 366 * 86400 // two years: a longer time is a typing mistake
	parts := 0
	for {
		if both := bothReadings(s); both != "" {
			return 0, 0, s, both
		}
		n, r, ok := cutFigure(s)
		if !ok {
			break
		}
		to := n
		if r2, dash := cutDash(r); dash {
			if both := bothReadings(r2); both != "" {
				return 0, 0, s, both
			}
			if to, r, ok = cutFigure(r2); !ok {
				return 0, 0, s, `a dash with no figure after it`
			}
		}
		unit, r := cutTimeUnit(r)
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
			_, to, r, what := CutTime(r2)
			return low, to, r, what
		}
	}
	if parts == 0 {
		return 0, 0, s, "no time"
	}
	return low, high, s, ""
}

// bothReadings says in words how the figure at the front of s can be read in two ways,
// "" where it can't: "1,500 s" is 25 minutes or a second and a half.
func bothReadings(s string) string {
	s = strings.TrimLeft(s, spaces)
	end := 0
	for end < len(s) && (IsDigit(s[end]) || s[end] == '.' || s[end] == ',') {
		end++
	}
	if !strings.ContainsAny(s[:end], ".,") {
		return "" // most times: nothing to doubt, and parsing would cost as much as the rest
	}
	var doubt *quantity.AmountError
	if _, _, err := quantity.ParseAmount(s[:end]); errors.As(err, &doubt) && doubt.Doubtful {
		return `"` + s[:end] + `" ` + doubt.Msg
	}
	return ""
}

// cutTimeUnit reads a unit of time off the front of s; seconds is 0 when there
// is none.
func cutTimeUnit(s string) (seconds float64, rest string) {
	s = strings.TrimLeft(s, spaces)
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
