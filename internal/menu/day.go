package menu

import (
	"strings"
	"time"
)

// The calendar a dinner needs, without package time's parser, layouts and zones:
// they would be thirty kilobytes of what a phone fetches, and the kitchen's
// clock on the wall knows no zones. Only the names of the days are taken from
// there.

// daysBefore a month begins in a year that is not a leap year.
var daysBefore = [13]int{0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365}

func leap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

func daysIn(year, month int) int {
	if month == 2 && leap(year) {
		return 29
	}
	return daysBefore[month] - daysBefore[month-1]
}

// day counts days since 1 January of the year 1, by the Gregorian calendar; it
// is 0 for what is no date.
func (w When) day() int {
	if !w.exists() {
		return 0
	}
	y := w.Year - 1
	n := y*365 + y/4 - y/100 + y/400 + daysBefore[w.Month-1] + w.Day - 1
	if w.Month > 2 && leap(w.Year) {
		n++
	}
	return n
}

// weekday of a day: 1 January of the year 1 was a Monday.
func (w When) weekday() time.Weekday { return time.Weekday((w.day() + 1) % 7) }

// Later is a time so many minutes on, or before where the number is negative.
// It may cross midnight. A dinner does not cross a change of the clocks between
// two courses, so plain arithmetic will do. A time without a date gets none.
func (w When) Later(minutes int) When {
	const perDay = 24 * 60
	minutes += w.Hour*60 + w.Minute
	days := minutes / perDay
	if minutes %= perDay; minutes < 0 {
		minutes, days = minutes+perDay, days-1
	}
	w.Hour, w.Minute = minutes/60, minutes%60
	if !w.exists() {
		return w
	}
	for w.Day += days; w.Day < 1; {
		if w.Month--; w.Month < 1 {
			w.Year, w.Month = w.Year-1, 12
		}
		w.Day += daysIn(w.Year, w.Month)
	}
	for w.Day > daysIn(w.Year, w.Month) {
		w.Day -= daysIn(w.Year, w.Month)
		if w.Month++; w.Month > 12 {
			w.Year, w.Month = w.Year+1, 1
		}
	}
	return w
}

// parseISO reads "2027-06-12", a day there is.
func parseISO(s string) (When, bool) {
	if len(s) != len("2027-06-12") || s[4] != '-' || s[7] != '-' {
		return When{}, false
	}
	y, ok1 := figures(s[:4])
	m, ok2 := figures(s[5:7])
	d, ok3 := figures(s[8:])
	w := When{Year: y, Month: m, Day: d}
	return w, ok1 && ok2 && ok3 && w.exists()
}

// parseLong reads the three words of "12 June 2027".
func parseLong(day, month, year string) (When, bool) {
	if len(year) != 4 || len(day) > 2 {
		return When{}, false
	}
	w := When{}
	for m := time.January; m <= time.December; m++ {
		if strings.EqualFold(month, m.String()) {
			w.Month = int(m)
		}
	}
	var ok1, ok2 bool
	w.Day, ok1 = figures(day)
	w.Year, ok2 = figures(year)
	return w, ok1 && ok2 && w.exists()
}

func (w When) exists() bool {
	return w.Year >= 1 && w.Month >= 1 && w.Month <= 12 && w.Day >= 1 && w.Day <= daysIn(w.Year, w.Month)
}

func figures(s string) (n int, ok bool) {
	for _, c := range []byte(s) {
		if c < '0' || c > '9' {
			return 0, false
		}
		n = n*10 + int(c-'0')
	}
	return n, s != ""
}
