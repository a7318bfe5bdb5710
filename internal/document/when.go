package document

import (
	"strings"
	"time"
)

// A When is what the clock and the calendar on the kitchen's wall show: a date
// and a time, or a time of day alone. It has no time zone: the arithmetic is
// that of package time in UTC, where every day has 24 hours. The zero When
// means that nothing was given.
type When struct{ t time.Time }

// NewTimeOfDay returns a time without a date, in minutes from midnight.
func NewTimeOfDay(minutes int) When {
	return When{}.withoutDate(minutes)
}

// IsZero reports whether nothing was given.
func (w When) IsZero() bool { return w.t.IsZero() }

// HasDate reports whether the date is known, not only the time.
func (w When) HasDate() bool { return !w.t.IsZero() && w.t.Year() >= 1 }

// Minutes returns the time of day in minutes from midnight.
func (w When) Minutes() int { return w.t.Hour()*60 + w.t.Minute() }

// Date returns the year, month and day, and zeros for a When without a date.
func (w When) Date() (year int, month time.Month, day int) {
	if !w.HasDate() {
		return 0, 0, 0
	}
	return w.t.Date()
}

// Weekday returns the day of the week of a When with a date.
func (w When) Weekday() time.Weekday { return w.t.Weekday() }

// Add returns the time so many minutes later, or earlier when the number is
// negative. A time without a date gets none: 23:45 and 30 minutes is 00:15.
func (w When) Add(minutes int) When {
	if !w.HasDate() {
		return w.withoutDate(w.Minutes() + minutes)
	}
	return When{time.Unix(w.t.Unix()+int64(minutes)*60, 0).UTC()} // not Add: a time.Duration ends at 292 years
}

// Sub returns the minutes from v to w. Both must have a date.
func (w When) Sub(v When) int { return int(w.t.Unix()-v.t.Unix()) / 60 }

// DaysSince returns the days from the date of v to the date of w, whatever the
// times of day, and 0 when either has no date.
func (w When) DaysSince(v When) int {
	if !w.HasDate() || !v.HasDate() {
		return 0
	}
	return (w.Sub(v) - w.Minutes() + v.Minutes()) / (24 * 60)
}

// String returns the time as "2006-01-02T15:04", as "15:04" without a date, or
// as "" when nothing was given.
func (w When) String() string {
	switch {
	case w.IsZero():
		return ""
	case !w.HasDate():
		return w.Clock()
	}
	return w.t.Format("2006-01-02T15:04")
}

// Clock returns the time of day as "15:04".
func (w When) Clock() string { return w.t.Format("15:04") }

// withoutDate returns a time of day. Its date is in the year 0, which
// [When.HasDate] takes for none.
func (When) withoutDate(minutes int) When {
	const day = 24 * 60
	return When{time.Date(0, time.January, 1, 0, (minutes%day+day)%day, 0, 0, time.UTC)}
}

// ParseWhen reads "2027-06-12 19:30", "12 June 2027, 19:30", "Saturday 12 June
// 2027 19:30" or "19:30". What says in words what is wrong, "" when nothing is.
func ParseWhen(s string) (w When, what string) {
	var date When
	var weekday time.Weekday
	minutes, timed, named := 0, false, false
	words := whenWords(s)
	for i := 0; i < len(words); i++ {
		word := words[i]
		switch {
		case strings.Contains(word, ":"):
			if minutes, timed = ParseClock(word); !timed {
				return When{}, `"` + word + `" is not a time of day`
			}
			if minutes == 24*60 {
				return When{}, "24:00 is the next day's 00:00"
			}
		case strings.Count(word, "-") == 2:
			var ok bool
			if date, ok = ParseDate(word); !ok {
				return When{}, `"` + word + `" is not a date`
			}
		case strings.EqualFold(word, "at") || strings.EqualFold(word, "on"):
		default:
			if d, ok := ParseWeekday(word); ok {
				weekday, named = d, true
				continue
			}
			var ok bool
			if date, ok = parseLongDate(words[i:]); !ok {
				return When{}, `"` + s + `" is not a date and time`
			}
			i += 2
		}
	}
	if !timed {
		return When{}, `"` + s + `" has no time of day`
	}
	if !date.HasDate() {
		return NewTimeOfDay(minutes), ""
	}
	if named && date.Weekday() != weekday {
		return When{}, "that day is a " + date.Weekday().String() + ", not a " + weekday.String()
	}
	return date.Add(minutes), ""
}

// whenWords splits a date and time into its words. A "T" between an ISO date
// and its time separates them too.
func whenWords(s string) []string {
	if len(s) > 10 && s[10] == 'T' {
		s = s[:10] + " " + s[11:]
	}
	return strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' || r == '\t' })
}

// ParseDate reads "2027-06-12" as that day's midnight. ok is false when there is
// no such day.
func ParseDate(s string) (w When, ok bool) { return parseDate("2006-01-02", s) }

// parseLongDate reads "12 June 2027" from the first three words.
func parseLongDate(words []string) (w When, ok bool) {
	if len(words) < 3 {
		return When{}, false
	}
	return parseDate("2 January 2006", strings.Join(words[:3], " "))
}

func parseDate(layout, s string) (w When, ok bool) {
	t, err := time.Parse(layout, s)
	w = When{t}
	return w, err == nil && w.HasDate()
}

// ParseClock reads "19:30" as minutes from midnight. 24:00 is the end of the
// day. ok is false for anything else.
func ParseClock(s string) (minutes int, ok bool) {
	s = strings.TrimSpace(s)
	if s == "24:00" {
		return 24 * 60, true
	}
	t, err := time.Parse("15:04", s)
	return When{t}.Minutes(), err == nil
}

// ParseWeekday reads "Saturday" or "Sat", in either case.
func ParseWeekday(s string) (day time.Weekday, ok bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if strings.EqualFold(s, d.String()) || strings.EqualFold(s, d.String()[:3]) {
			return d, true
		}
	}
	return 0, false
}
