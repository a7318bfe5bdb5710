package plan

import "slices"

// mostLate is how late a course may be, in minutes, before the cooks stay longer than
// two hours for it.
const mostLate = 300

// exactness says how exactly the fewest minutes of lateness are looked for: to the minute,
// or to this part of a long lateness.
const exactness = 60

// lateness returns by how many minutes a course is late.
func (in *Input) lateness(course int) int {
	if course < len(in.late) {
		return in.late[course]
	}
	return 0
}

// latenesses are the ways in which the courses of a dinner can be late.
type latenesses struct {
	open  []bool // courses that were not sent
	least []int  // by how many minutes each is late at least
}

// latenesses returns by how many minutes each course is late at least, however many cooks
// and however much equipment there are: by what follows on what. It returns nil where the
// times contradict each other or the kitchen lacks something.
func (in *Input) latenesses() *latenesses {
	p, err := in.project(in.chosen(), 0)
	if err != nil {
		return nil
	}
	starts, _ := p.pushed(nil)
	if starts == nil {
		return nil
	}
	l := &latenesses{open: make([]bool, len(p.due)), least: make([]int, len(p.due))}
	for i := range p.acts {
		if a := &p.acts[i]; a.course > 0 {
			l.open[a.course-1] = true
			l.least[a.course-1] = max(l.least[a.course-1], starts[i]-a.hi)
		}
	}
	return l
}

// by returns the latenesses with each course so many minutes later than at least, and at
// most most.
func (l *latenesses) by(minutes, most int) []int {
	late := slices.Clone(l.least)
	for i, open := range l.open {
		if open {
			late[i] = min(most, late[i]+minutes)
		}
	}
	return late
}

// lateBy returns a plan with late courses, each at most most minutes: by what it is late
// at least, and so many minutes more as few trials find for all of them; then each course
// by what it is late at least where that fits. It returns nil where there is no plan. The
// kitchen stays open after each shift for stay minutes, and on the last day for as long as
// the courses are late.
func (in Input) lateBy(l *latenesses, stay, most int) *Plan {
	fits := func(late []int) bool { return in.delayed(late, stay).fits(in.chosen()) }
	if slices.Max(l.least) > most {
		return nil
	}
	short, enough := -1, 0
	exact := max(1, slices.Max(l.least)/exactness)
	for by := 4 * exact; !fits(l.by(enough, most)); by *= 2 {
		if enough == most || short < 0 && !fits(l.by(most, most)) {
			return nil
		}
		short, enough = enough, min(most, enough+by)
	}
	for enough-short > exact {
		if mid := (short + enough) / 2; fits(l.by(mid, most)) {
			enough = mid
		} else {
			short = mid
		}
	}
	late := l.by(enough, most)
	for i := range late {
		sooner := slices.Clone(late)
		sooner[i] = l.least[i]
		if !slices.Equal(sooner, late) && fits(sooner) {
			late = sooner
		}
	}
	return in.planned(late, stay)
}

// delayed returns the input with late courses, and with every shift longer.
func (in Input) delayed(late []int, stay int) *Input {
	in.late, in.quick = late, true
	return in.longer(stay, slices.Max(late))
}

// planned returns the plan with late courses and longer shifts, nil if there is none.
func (in Input) planned(late []int, stay int) *Plan {
	longer := in.delayed(late, stay)
	pl, _ := longer.attempt(longer.chosen(), 0)
	if pl == nil {
		return nil
	}
	return pl.overtime(in)
}
