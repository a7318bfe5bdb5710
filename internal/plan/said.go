package plan

import (
	"hobside/internal/document"
)

// Span returns a time of the plan, in minutes after the serving time, as a time on a day.
// An end at or before the beginning is none: the time goes on for good.
func (in *Input) Span(from, to int) Span {
	ax := axis{in.Serve, in.ClockChanges}
	if to > from && to < forEver {
		return ax.span(from, to)
	}
	s := ax.span(from, from)
	s.To = 0
	return s
}

// Reading returns what the wall's clock shows t minutes after the serving time.
func (in *Input) Reading(t int) document.When {
	return axis{in.Serve, in.ClockChanges}.reading(t)
}

// MinuteAt returns the minute of the plan at which the clock shows a time of day, the one
// that is nearest to a minute: from six hours before it on. ok is false for a text that is
// no time of day.
func (in *Input) MinuteAt(clock string, near int) (t int, ok bool) {
	const before = 6 * anHour
	of, ok := document.ParseClock(clock)
	if !ok {
		return 0, false
	}
	ax := axis{in.Serve, in.ClockChanges}
	midnight := ax.reading(near).DaysSince(in.Serve)*aDay - in.Serve.Minutes()
	t = ax.at(midnight + of)
	switch {
	case t < near-before:
		t = ax.at(midnight + aDay + of)
	case t >= near+aDay-before:
		t = ax.at(midnight - aDay + of)
	}
	return t, true
}

// Away returns the times, in minutes after the serving time, at which a cook of the
// kitchen, 0 + index, is away. One without an end ends at Never.
func (in *Input) Away(cook int) [][2]int {
	var out [][2]int
	if cook < len(in.absent) {
		for _, s := range in.absent[cook] {
			out = append(out, [2]int{s.from, s.to})
		}
	}
	return out
}

// Never is a minute after any that a plan has.
const Never = forEver

// Out returns how many of some equipment are out at a minute, and until when; those that
// are borrowed for another time are out as well.
func (in *Input) Out(equipment string, t int) (count, until int) {
	until = Never
	for _, l := range in.lacks {
		if l.name == equipment && l.from <= t && t < l.to {
			count, until = count+l.count, min(until, l.to)
		}
	}
	return count, until
}

// OutFrom reports whether any of some equipment is out at a minute or later.
func (in *Input) OutFrom(equipment string, t int) bool {
	for _, l := range in.lacks {
		if l.name == equipment && !l.borrowed && l.to > t {
			return true
		}
	}
	return false
}

// Open returns the kitchen's shifts, in order, as minutes after the serving time.
func (in *Input) Open() [][2]int {
	var out [][2]int
	for _, s := range (axis{in.Serve, in.ClockChanges}).open(in.Kitchen) {
		out = append(out, [2]int{s.from, s.to})
	}
	return out
}
