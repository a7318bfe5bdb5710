package bench

import (
	"fmt"

	"hobside/internal/plan"
)

const (
	anHour = 60
	off    = 15 // minutes without work that count as a pause
	mark   = 5  // minutes between two marks of the clock
)

// Figures say how well a plan can be followed. Less is better in all of them.
type Figures struct {
	Menu  string
	Steps int // steps and loads of the plan

	// Handovers counts pairs of consecutive hands-on steps of a batch on one day
	// that different cooks do, or lead where several share a step.
	Handovers int
	// CardChanges counts, for each cook and day, how often the next hands-on step
	// is of another card. A step that several share, such as plating a course, is one
	// act of them all: it counts for the cook who leads it, and those who help go on
	// with their own card after it.
	CardChanges int
	// LongestStretch is the longest work of one cook without a pause, in minutes. Less
	// than 15 minutes without work are no pause.
	LongestStretch int
	// LastHour is the hands-on share, in per cent, of the cooks' time in the hour
	// before the kitchen closes, of the day where that is highest. Days before the
	// day of serving count.
	LastHour int
	// OddStarts counts the starts on days before the day of serving that are not on
	// a five-minute mark.
	OddStarts int
	// Late is the minutes by which courses are late, in total.
	Late int
}

// Measure returns the figures of a plan in a kitchen with so many cooks.
func Measure(p *plan.Plan, cooks int) Figures {
	f := Figures{Steps: len(p.Tasks), LastHour: lastHour(p, cooks), LongestStretch: longestStretch(p, cooks)}
	type batch struct {
		card   string
		number int
	}
	type last struct{ cook, day int }
	step, of := map[batch]last{}, map[last]string{}
	for _, t := range p.Tasks {
		w := p.Reading(t.Start)
		day := w.DaysSince(p.Serve)
		if day < 0 && w.Minutes()%mark != 0 {
			f.OddStarts++
		}
		if t.Cook == 0 {
			continue
		}
		key := batch{t.Card, t.Batch}
		if was, ok := step[key]; ok && was.day == day && was.cook != t.Cook {
			f.Handovers++
		}
		step[key] = last{t.Cook, day}
		at := last{t.Cook, day}
		if card, ok := of[at]; ok && card != t.Card {
			f.CardChanges++
		}
		of[at] = t.Card
	}
	for _, c := range p.Courses {
		f.Late += c.At - c.Due
	}
	return f
}

// longestStretch returns Figures.LongestStretch.
func longestStretch(p *plan.Plan, cooks int) int {
	longest := 0
	for cook := 1; cook <= cooks; cook++ {
		from, to, begun := 0, 0, false
		for _, t := range p.Tasks { // by start
			if !t.By(cook) {
				continue
			}
			if !begun || t.Start-to >= off {
				from, to, begun = t.Start, t.Free, true
			}
			to = max(to, t.Free)
			longest = max(longest, to-from)
		}
	}
	return longest
}

// lastHour returns Figures.LastHour.
func lastHour(p *plan.Plan, cooks int) int {
	most := 0
	hours := p.Hours()
	for i, h := range hours {
		closing := h[1]
		day := p.Reading(closing - 1).DaysSince(p.Serve)
		if day >= 0 || i+1 < len(hours) && p.Reading(hours[i+1][0]).DaysSince(p.Serve) == day {
			continue // the kitchen opens again on that day
		}
		sum := 0
		for _, t := range p.Tasks {
			sum += t.People() * max(0, min(t.Free, closing)-max(t.Start, closing-anHour))
		}
		most = max(most, sum*100/max(1, cooks*anHour))
	}
	return most
}

// String returns the figures in one line, without the time that planning took.
func (f Figures) String() string {
	return fmt.Sprintf("menu=%s steps=%d handovers=%d card_changes=%d longest_stretch_min=%d last_hour_share_pct=%d odd_starts=%d late_min=%d",
		f.Menu, f.Steps, f.Handovers, f.CardChanges, f.LongestStretch, f.LastHour, f.OddStarts, f.Late)
}
