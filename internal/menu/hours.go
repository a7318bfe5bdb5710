package menu

import (
	"strconv"
	"strings"
	"time"

	"github.com/yuin/goldmark/ast"
)

// A Shift is hours the kitchen is open. Which day they are on, [Shift.Day]
// says.
type Shift struct {
	ByWeekday bool
	Weekday   time.Weekday // when ByWeekday: the last one up to the day of serving
	Date      When         // set when the file gives a date; only the date part counts
	Days      int          // else: days from the day of serving, "the day before" is −1
	From, To  int          // minutes from midnight; To may pass 1440
}

// Day is how many days after the day of serving the shift lies; before it,
// the number is negative.
func (s Shift) Day(serve When) int {
	switch {
	case s.ByWeekday:
		return -((int(serve.weekday()) - int(s.Weekday) + 7) % 7)
	case s.Date.HasDate():
		return s.Date.day() - serve.day()
	}
	return s.Days
}

// hoursLine reads "Friday 09:00–13:00, 16:00–22:00".
func (p *kitchenParser) hoursLine(item ast.Node) {
	block := item.FirstChild()
	if block == nil {
		return
	}
	line, at := p.Text(block)
	line = strings.TrimSpace(line)
	if line == "" {
		return
	}
	// The day's words end where the first time of day begins.
	colon := strings.IndexByte(line, ':')
	for colon >= 0 && !(colon > 0 && isDigit(line[colon-1]) && colon+2 < len(line) && isDigit(line[colon+1])) {
		next := strings.IndexByte(line[colon+1:], ':')
		if next < 0 {
			colon = -1
			break
		}
		colon += 1 + next
	}
	const example = `write it like "Saturday 08:00–24:00" or "the day before: 16:00–22:00"`
	if colon < 0 {
		p.faultyHours = true
		p.Err(at, `"`+line+`" has no times of day`, "", example)
		return
	}
	start := colon - 1
	if start > 0 && isDigit(line[start-1]) {
		start--
	}
	s, ok := parseDay(strings.TrimRight(strings.TrimSpace(line[:start]), ": "))
	if !ok {
		p.faultyHours = true
		p.Err(at, `"`+strings.TrimSpace(line[:start])+`" is no day`, "", example)
		return
	}
	for _, span := range strings.Split(line[start:], ",") {
		from, to, ok := parseSpan(span)
		if !ok {
			p.faultyHours = true
			p.Err(at+start, `"`+strings.TrimSpace(span)+`" is no span of time`, "", example)
			continue
		}
		s.From, s.To = from, to
		p.kitchen.Hours = append(p.kitchen.Hours, s)
	}
}

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
	if d, ok := parseWeekday(s); ok {
		return Shift{ByWeekday: true, Weekday: d}, true
	}
	for suffix, sign := range map[string]int{" days before": -1, " days after": 1} {
		if count, ok := strings.CutSuffix(low, suffix); ok {
			n, err := strconv.Atoi(count)
			return Shift{Days: sign * n}, err == nil && n >= 0 && n <= 30
		}
	}
	if date, ok := parseISO(s); ok {
		return Shift{Date: date}, true
	}
	return Shift{}, false
}

// parseSpan reads "17:00–22:00" in minutes from midnight. One that ends before
// it starts goes past midnight.
func parseSpan(s string) (from, to int, ok bool) {
	s = strings.NewReplacer("–", "-", "—", "-", "−", "-", " to ", "-").Replace(s)
	a, b, found := strings.Cut(s, "-")
	from, ok1 := clock(a)
	to, ok2 := clock(b)
	if to <= from {
		to += 24 * 60
	}
	return from, to, found && ok1 && ok2
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
