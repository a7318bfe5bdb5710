package kitchen

import (
	"strconv"
	"strings"
	"time"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// A Shift is a time during which the kitchen is open without a break.
// [Shift.Day] returns its day.
type Shift struct {
	ByWeekday bool
	Weekday   time.Weekday  // when ByWeekday: the last such day up to the day of serving
	Date      document.When // set when the file gives a date; its time of day does not count
	Days      int           // else: days from the day of serving, "the day before" is −1
	From, To  int           // minutes from midnight; To may pass 1440
}

// Day returns how many days after the day of serving the shift is; the number
// is negative for a day before. A shift on a weekday needs a serving time with a
// date.
func (s Shift) Day(serve document.When) int {
	switch {
	case s.ByWeekday:
		return -((int(serve.Weekday()) - int(s.Weekday) + 7) % 7)
	case s.Date.HasDate():
		return s.Date.DaysSince(serve)
	}
	return s.Days
}

// hoursLine reads "Friday 09:00–13:00, 16:00–22:00".
func (p *parser) hoursLine(item ast.Node) {
	block := item.FirstChild()
	if block == nil {
		return
	}
	line, at := p.Text(block)
	line = strings.TrimSpace(line)
	if line == "" {
		return
	}
	start := firstClock(line)
	if start < 0 {
		p.badHours(at, `"`+line+`" has no times of day`)
		return
	}
	s, ok := parseDay(strings.TrimRight(strings.TrimSpace(line[:start]), ": "))
	if !ok {
		p.badHours(at, `"`+strings.TrimSpace(line[:start])+`" is not a day`)
		return
	}
	for _, span := range strings.Split(line[start:], ",") {
		from, to, ok := parseSpan(span)
		if !ok {
			p.badHours(at+start, `"`+strings.TrimSpace(span)+`" is not a span of time`)
			continue
		}
		s.From, s.To = from, to
		p.kitchen.Hours = append(p.kitchen.Hours, s)
	}
}

func (p *parser) badHours(at int, msg string) {
	p.faultyHours = true
	p.Err(at, msg, "", `write it like "Saturday 08:00–24:00" or "the day before: 16:00–22:00"`)
}

// firstClock returns where the first time of day begins in a line, −1 when there
// is none. The words before it name the day.
func firstClock(line string) int {
	for i := 1; i+2 < len(line); i++ {
		if line[i] != ':' || !document.IsDigit(line[i-1]) || !document.IsDigit(line[i+1]) {
			continue
		}
		if i > 1 && document.IsDigit(line[i-2]) {
			return i - 2
		}
		return i - 1
	}
	return -1
}

// parseDay reads the day of a shift: "the day before", "2 days after",
// "Saturday", "2027-06-12".
func parseDay(s string) (Shift, bool) {
	low := strings.ToLower(s)
	switch low {
	case "on the day", "the day":
		return Shift{}, true
	case "the day before":
		return Shift{Days: -1}, true
	case "the day after":
		return Shift{Days: 1}, true
	}
	if d, ok := document.ParseWeekday(s); ok {
		return Shift{ByWeekday: true, Weekday: d}, true
	}
	if count, ok := strings.CutSuffix(low, " days before"); ok {
		n, ok := fewDays(count)
		return Shift{Days: -n}, ok
	}
	if count, ok := strings.CutSuffix(low, " days after"); ok {
		n, ok := fewDays(count)
		return Shift{Days: n}, ok
	}
	date, ok := document.ParseDate(s)
	return Shift{Date: date}, ok
}

// fewDays reads a number of days from 0 to 30.
func fewDays(s string) (n int, ok bool) {
	n, err := strconv.Atoi(s)
	return n, err == nil && n >= 0 && n <= 30
}

// parseSpan reads "17:00–22:00" in minutes from midnight. A span that ends before
// it starts ends on the next day.
func parseSpan(s string) (from, to int, ok bool) {
	s = strings.NewReplacer("–", "-", "—", "-", "−", "-", " to ", "-").Replace(s)
	a, b, found := strings.Cut(s, "-")
	from, ok1 := document.ParseClock(a)
	to, ok2 := document.ParseClock(b)
	if to <= from {
		to += 24 * 60
	}
	return from, to, found && ok1 && ok2
}
