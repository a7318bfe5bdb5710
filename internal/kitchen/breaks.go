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
	p.breaksAt = f.ValueAt
	b := Breaks{Minutes: p.minutes(off, f.ValueAt), Per: p.minutes(work, f.ValueAt+len(off)+len(" per "))}
	switch {
	case b.Minutes == 0 || b.Per == 0:
	case b.Minutes >= b.Per || b.Per > allDay:
		p.Err(f.ValueAt, `breaks of "`+strings.TrimSpace(off)+`" after "`+strings.TrimSpace(work)+`" of work leave no day to work in`, "", `write it like "breaks: 20 min per 5 h"`)
	default:
		p.kitchen.Breaks = b
	}
}

// checkBreaks adds a warning where a break is at least as long as every shift: nobody
// could take it and work.
func (p *parser) checkBreaks() {
	longest := 0
	for _, h := range p.kitchen.Hours {
		longest = max(longest, h.To-h.From)
	}
	if long := p.kitchen.Breaks.Minutes; longest > 0 && long >= longest {
		p.Warn(p.breaksAt, "a break of "+document.FormatSeconds(long*60)+" is as long as the kitchen's longest shift, "+document.FormatSeconds(longest*60), "",
			`write a shorter one, like "breaks: 20 min per 5 h", or "breaks: none"`)
	}
}

// longestHeating is how long the slowest equipment takes to heat up, in minutes: an
// oven of stone, fired overnight. Common practice, no source.
const longestHeating = 12 * 60

// hotIn reads how long equipment takes to heat up, in minutes. It returns 0, with a
// problem, for a time that no equipment takes.
func (p *parser) hotIn(e *Equipment, text string, at int) int {
	n := p.minutes(text, at)
	if n > longestHeating {
		p.Err(at, "the "+e.Name+" takes "+strings.TrimSpace(text)+" to heat up, longer than any does", "", `write it like "hot in 20 min"`)
		return 0
	}
	return n
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
