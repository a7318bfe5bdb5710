package menu

import (
	"strconv"
	"strings"
	"time"
)

// When is a wall-clock date and time in the kitchen's own zone. A menu may give
// the time alone: Year is then 0.
type When struct {
	Year, Month, Day, Hour, Minute int
}

// IsZero says that no time was given.
func (w When) IsZero() bool { return w == When{} }

// HasDate says whether the date is known, not only the time.
func (w When) HasDate() bool { return w.Year != 0 }

// String writes it as "2006-01-02T15:04", or the time alone without a date.
func (w When) String() string {
	if w.IsZero() {
		return ""
	}
	clock := two(w.Hour) + ":" + two(w.Minute)
	if !w.HasDate() {
		return clock
	}
	year := strconv.Itoa(w.Year)
	return "0000"[min(len(year), 4):] + year + "-" + two(w.Month) + "-" + two(w.Day) + "T" + clock
}

func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}

// ParseWhen reads "2027-06-12 19:30", "12 June 2027, 19:30", "Saturday 12 June
// 2027 19:30" or "19:30". What is wrong is said in what.
func ParseWhen(s string) (w When, what string) {
	var weekday time.Weekday
	named := false
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' || r == 'T' && strings.Contains(s, "T1") || r == '\t' })
	if i := strings.IndexByte(s, 'T'); i == 10 { // the ISO form has no space
		words = []string{s[:i], s[i+1:]}
	}
	for i := 0; i < len(words); i++ {
		word := words[i]
		switch {
		case strings.Contains(word, ":"):
			m, ok := clock(word)
			if !ok {
				return When{}, `"` + word + `" is no time of day`
			}
			w.Hour, w.Minute = m/60, m%60
			if m == 24*60 {
				return When{}, "24:00 is the next day's 00:00"
			}
		case strings.Count(word, "-") == 2:
			date, ok := parseISO(word)
			if !ok {
				return When{}, `"` + word + `" is no date`
			}
			w.Year, w.Month, w.Day = date.Year, date.Month, date.Day
		case strings.EqualFold(word, "at") || strings.EqualFold(word, "on"):
		default:
			if d, ok := parseWeekday(word); ok {
				weekday, named = d, true
				continue
			}
			if i+2 < len(words) {
				if date, ok := parseLong(word, words[i+1], words[i+2]); ok {
					w.Year, w.Month, w.Day = date.Year, date.Month, date.Day
					i += 2
					continue
				}
			}
			return When{}, `"` + s + `" is no date and time`
		}
	}
	if !strings.Contains(s, ":") {
		return When{}, `"` + s + `" has no time of day`
	}
	if named && w.HasDate() && w.weekday() != weekday {
		return When{}, "that day is a " + w.weekday().String() + ", not a " + weekday.String()
	}
	return w, ""
}

// clock reads "19:30" as minutes from midnight; 24:00 is the day's end.
func clock(s string) (minutes int, ok bool) {
	h, m, found := strings.Cut(strings.TrimSpace(s), ":")
	hour, err1 := strconv.Atoi(h)
	minute, err2 := strconv.Atoi(m)
	if !found || err1 != nil || err2 != nil || len(m) != 2 || hour < 0 || minute < 0 || minute > 59 || hour*60+minute > 24*60 {
		return 0, false
	}
	return hour*60 + minute, true
}

func parseWeekday(s string) (time.Weekday, bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if strings.EqualFold(s, d.String()) || strings.EqualFold(s, d.String()[:3]) {
			return d, true
		}
	}
	return 0, false
}
