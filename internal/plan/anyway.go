package plan

import (
	"slices"
	"sort"

	"hobside/internal/document"
)

// How far a plan under way may exceed the serving times, in minutes, while the cooks
// stay up to two hours longer; then, while they work as long as it takes.
var (
	delays     = [...]int{5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 300}
	longDelays = [...]int{0, 15, 30, 60, 120, 300, 720, 1440}
)

// The longest that cooks stay after a shift, in minutes: what is usual, and through the
// night into the next shift.
const (
	stays  = 120
	allDay = 16 * 60
)

// anyway plans a dinner that can't be done by all its rules, with why as the reason.
// Work that was begun and waits too long is reported. Under way there is a plan unless
// the kitchen lacks equipment: it exceeds the kitchen's hours by up to two hours, then
// also the serving times by up to five; then the cooks work through the night, then the
// courses are up to a day late. It exceeds each by as little as a few trials find, and
// says by how much.
func (in Input) anyway(why error) (*Plan, error) {
	in.loose = true
	if !in.Under {
		if pl, _ := in.attempt(in.chosen(), 0, 0); pl != nil {
			return pl, nil
		}
		return nil, why
	}
	for _, longer := range [...]int{0, 30, 60, stays} {
		if pl, _ := in.longer(longer).attempt(in.chosen(), 0, 0); pl != nil {
			return pl.overtime(in), nil
		}
	}
	usual := in.Placements
	in.Placements = 1
	if pl := in.late(delays[:], stays, usual); pl != nil {
		return pl, nil
	}
	for _, longer := range [...]int{2 * stays, 4 * stays, allDay} {
		if pl := in.late(longDelays[:], longer, usual); pl != nil {
			return pl, nil
		}
	}
	return nil, why
}

// late returns a plan with the least of the delays that has one, nil where none has. The
// kitchen stays open after each shift for so many minutes, and on the last day for as
// long as the courses are late.
func (in Input) late(delays []int, stay, usual int) *Plan {
	var best *Plan
	n := sort.Search(len(delays), func(i int) bool {
		pl, _ := in.longer(max(stay, delays[i])).attempt(in.chosen(), 0, delays[i])
		if pl != nil {
			best = pl
		}
		return pl != nil
	})
	if n == len(delays) {
		return nil
	}
	short := 0
	if n > 0 {
		short = delays[n-1]
	}
	return in.longer(max(stay, delays[n])).punctual(best, short, delays[n], usual).overtime(in)
}

// longer returns the input with every shift so many minutes longer.
func (in Input) longer(minutes int) *Input {
	k := *in.Kitchen
	k.Hours = slices.Clone(k.Hours)
	for i := range k.Hours {
		k.Hours[i].To += minutes
	}
	in.Kitchen = &k
	return &in
}

// overtime notes by how much the plan exceeds the kitchen's hours.
func (p *Plan) overtime(in Input) *Plan {
	most := 0
	for _, t := range p.Tasks {
		if t.Held || t.Cook == 0 {
			continue
		}
		shifts := p.project.ax.open(in.Kitchen)
		if i := slices.IndexFunc(shifts, func(s shift) bool { return s.from > t.Start }); i >= 0 {
			shifts = shifts[:i]
		}
		if n := len(shifts); n > 0 {
			most = max(most, t.Free-shifts[n-1].to)
		}
	}
	if most > 0 {
		p.Notes = append(p.Notes, "the cooks stay up to "+document.FormatSeconds(most*bySeconds)+" longer than the kitchen's hours")
	}
	return p
}
