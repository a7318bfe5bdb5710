package kitchen

import (
	"strings"

	"hobside/internal/document"
)

// allDay is longer than anybody works.
const allDay = 24 * 60

// breaks reads "20 min per 5 h" or "none".
func (p *parser) breaks(f document.Fact) {
	if strings.EqualFold(f.Value, "none") {
		p.kitchen.Breaks = Breaks{Per: allDay}
		return
	}
	off, work, ok := strings.Cut(f.Value, " per ")
	if !ok {
		p.Err(f.ValueAt, `"`+f.Value+`" does not say how long a break is and after how much work`, "", `write it like "breaks: 20 min per 5 h", or "breaks: none"`)
		return
	}
	b := Breaks{Minutes: p.minutes(off, f.ValueAt), Per: p.minutes(work, f.ValueAt+len(off)+len(" per "))}
	switch {
	case b.Minutes == 0 || b.Per == 0:
	case b.Minutes >= b.Per || b.Per > allDay:
		p.Err(f.ValueAt, `breaks of "`+strings.TrimSpace(off)+`" after "`+strings.TrimSpace(work)+`" of work leave no day to work in`, "", `write it like "breaks: 20 min per 5 h"`)
	default:
		p.kitchen.Breaks = b
	}
}

// minutes reads a time that is neither a range nor grows with an amount. It returns
// 0, with a problem, for anything else and for less than a minute.
func (p *parser) minutes(text string, at int) int {
	seconds, ok := document.ParseSeconds(text)
	if !ok || seconds < 60 {
		p.Err(at, `"`+strings.TrimSpace(text)+`" is not one time of a minute or more`, "", `write it like "20 min" or "5 h"`)
		return 0
	}
	return seconds / 60
}
