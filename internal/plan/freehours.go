package plan

import (
	"fmt"
	"strings"

	"hobside/internal/document"
)

// cook tries one more cook: for the last hours, for the last day, or all the time.
func (f *freeing) cook() {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	open := ax.open(f.in.Kitchen)
	end := f.in.end()
	last := shift{0, end}
	for _, o := range open {
		if o.from < end {
			last = shift{o.from, min(o.to, end)}
		}
	}
	for _, hours := range [...]int{2, 4} {
		if from := last.to - hours*anHour; from > last.from && f.helped(shift{from, last.to}) {
			return
		}
	}
	if !f.helped(last) {
		f.try(Change{Text: "one more cook", Do: []Deed{{Do: DoCook, Count: 1}}, cost: 2 * perCook})
	}
}

// helped tries one more cook for a time.
func (f *freeing) helped(t shift) bool {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	return f.try(Change{Text: "one more cook on " + ax.words(t) + " (" + document.FormatSeconds((t.to-t.from)*bySeconds) + ")", cost: perCook + (t.to-t.from)/4,
		Do: []Deed{{Do: DoCook, Count: 1, Times: []Span{ax.span(t.from, t.to)}}}}) != nil
}

// end returns when the last course goes out.
func (in *Input) end() int {
	end := 0
	for _, c := range in.Dinner.Menu.Courses {
		if !c.Struck {
			end = max(end, c.After)
		}
	}
	return end
}

// hours tries to open the kitchen earlier, and a day sooner.
func (f *freeing) hours() {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	open := ax.open(f.in.Kitchen)
	if len(open) == 0 || f.in.Under {
		return
	}
	first := open[0]
	day := ax.reading(first.from).Weekday().String()
	for _, hours := range [...]int{1, 2, 4} {
		if at := first.from - hours*anHour; ax.day(at) == ax.day(first.from) {
			c := Change{Text: fmt.Sprintf("open the kitchen %s earlier on %s", plural(hours, "hour"), day), cost: perEarly * hours,
				Do: []Deed{{Do: DoOpen, Times: []Span{ax.span(at, first.from)}}}}
			if f.try(c) != nil {
				break
			}
		}
	}
	f.sooner(shift{first.from - aDay, first.to - aDay}, first.from)
}

// sooner tries to open the kitchen on the day before its first, if one card's work will
// do for that card alone, and for no longer than there is work.
func (f *freeing) sooner(day shift, usually int) {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	whole := f.narrow(Change{cost: perDay}, day, usually)
	if whole == nil {
		return
	}
	tried := map[string]bool{}
	for i := range whole.pl.Tasks {
		id := whole.pl.Tasks[i].Card
		if whole.pl.Tasks[i].Start >= usually || tried[id] || len(tried) == mostMore {
			continue
		}
		tried[id] = true
		if one := f.narrow(Change{cost: perAhead, Do: []Deed{{Card: id}}}, day, usually); one != nil {
			one.c.Text = "make " + f.in.Dinner.Cards[id].Title + " on " + ax.words(one.day)
			f.add(one.c, one.pl)
			return
		}
	}
	whole.c.Text = "open the kitchen on " + ax.words(whole.day) + " too"
	f.add(whole.c, whole.pl)
}

// A narrowed change opens the kitchen on another day, with the plan that this gives.
type narrowed struct {
	c   Change
	day shift
	pl  *Plan
}

// narrow tries to open the kitchen on a day before its first, and then for no longer than
// there is work. It returns nil where there is no plan.
func (f *freeing) narrow(c Change, day shift, usually int) *narrowed {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	card := ""
	if len(c.Do) > 0 {
		card = c.Do[0].Card
	}
	open := func(t shift) *narrowed {
		c.Do = []Deed{{Do: DoOpen, Card: card, Times: []Span{ax.span(t.from, t.to)}}}
		if pl := f.plan(c); pl != nil {
			return &narrowed{c, t, pl}
		}
		return nil
	}
	long := open(day)
	if long == nil {
		return nil
	}
	used := shift{forEver, -forEver}
	for i := range long.pl.Tasks {
		if t := &long.pl.Tasks[i]; t.Start < usually {
			used = shift{min(used.from, t.Start-anHour/2), max(used.to, t.Free)}
		}
	}
	if used.from > used.to {
		return long
	}
	const mark = 30 // a shift begins and ends on the half hour
	past := func(t int) int { return ((t+ax.serve.Minutes())%mark + mark) % mark }
	used.from -= past(used.from)
	used.to += (mark - past(used.to)) % mark
	if short := open(shift{max(used.from, day.from), min(used.to, day.to)}); short != nil {
		return short
	}
	return long
}

// words writes a time with its day: "Thursday, 16:00–22:00".
func (a axis) words(t shift) string {
	until := a.reading(t.to).Clock()
	if until == "00:00" {
		until = "24:00"
	}
	return a.reading(t.from).Weekday().String() + ", " + a.reading(t.from).Clock() + "–" + until
}

// day returns the day of a minute, 0 for the day of serving.
func (a axis) day(t int) int { return a.reading(t).DaysSince(a.serve) }

// serve tries to serve later.
func (f *freeing) serve() {
	for _, minutes := range [...]int{15, 30, 60, 120} {
		c := Change{Text: fmt.Sprintf("serve %d minutes later", minutes), Effect: "the first course at " + f.in.Serve.Add(minutes).Clock(),
			Do: []Deed{{Do: DoServe, Minutes: minutes, At: strings.Replace(f.in.Serve.Add(minutes).String(), " ", "T", 1)}}, cost: perLater * minutes}
		if f.try(c) != nil {
			return
		}
	}
}
