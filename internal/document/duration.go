package document

import (
	"strconv"
	"strings"

	"hobside/internal/quantity"
)

// A Duration is a time that a step takes, in seconds.
type Duration struct {
	Low, High int  // equal when exact; both 0 when not said
	Form      Form // how it was typed
	PerLow    int  // extra seconds for each Per: "5 min + 2 min per 6 pieces"
	PerHigh   int
	Per       quantity.Amount // zero when the time does not grow with the batch
}

// Form says how a time was typed.
type Form string

// How a time was typed. Overnight means 8 to 14 hours; About means ±25 %.
const (
	Exact     Form = ""
	About     Form = "about"
	AtLeast   Form = "at least"
	Range     Form = "range"
	Overnight Form = "overnight"
)

// IsZero reports whether no time was given.
func (d Duration) IsZero() bool { return d.Low == 0 && d.High == 0 && d.PerLow == 0 && d.PerHigh == 0 }

// String writes a time as a cook reads it: "1 h 30 min", "4–5 h", "at least
// 2 h", "5 min + 2 min per 6 pieces".
func (d Duration) String() string {
	fixed := d.fixed()
	if d.Per.Unit == nil {
		return fixed
	}
	more := Duration{Low: d.PerLow, High: d.PerHigh}.fixed() + " per " + quantity.Show(d.Per, quantity.Prefs{AsTyped: true})
	if fixed == "" {
		return more
	}
	return fixed + " + " + more
}

// fixed writes the part of a time that does not grow.
func (d Duration) fixed() string {
	switch {
	case d.Low == 0 && d.High == 0:
		return ""
	case d.Form == Overnight:
		return "overnight"
	case d.Form == About:
		return "about " + FormatSeconds(d.Low+(d.High-d.Low)/2)
	case d.Form == AtLeast:
		return "at least " + FormatSeconds(d.Low)
	case d.Low != d.High:
		low, high := FormatSeconds(d.Low), FormatSeconds(d.High)
		lowN, lowUnit, ok1 := strings.Cut(low, " ")
		highN, highUnit, ok2 := strings.Cut(high, " ")
		if ok1 && ok2 && lowUnit == highUnit {
			return lowN + "–" + highN + " " + highUnit
		}
		return low + "–" + high
	}
	return FormatSeconds(d.Low)
}

// FormatSeconds writes a length of time: "45 s", "10 min", "1 h 30 min", "2 d".
func FormatSeconds(s int) string {
	const minute, hour, day = 60, 3600, 86400
	var parts []string
	add := func(n int, unit string) {
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+unit)
		}
	}
	if s < 0 {
		return "−" + FormatSeconds(-s)
	}
	if s >= 2*day && s%hour == 0 {
		add(s/day, "d")
		s %= day
	}
	add(s/hour, "h")
	add(s%hour/minute, "min")
	add(s%minute, "s")
	if len(parts) == 0 {
		return "0 min"
	}
	return strings.Join(parts, " ")
}
