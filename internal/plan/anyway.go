package plan

import (
	"slices"

	"hobside/internal/document"
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
		if pl, _ := in.attempt(in.chosen(), 0); pl != nil {
			return pl, nil
		}
		return nil, why
	}
	if steps(in.Demand) > mostActs {
		return nil, why
	}
	l := in.latenesses()
	if l == nil {
		return nil, why
	}
	if slices.Max(l.least) == 0 && in.delayed(l.least, stays).fits(in.chosen()) {
		for _, stay := range [...]int{0, 30, 60, stays} {
			if in.delayed(l.least, stay).fits(in.chosen()) {
				return in.planned(l.least, stay), nil
			}
		}
	}
	if pl := in.lateBy(l, stays, mostLate); pl != nil {
		return pl, nil
	}
	for _, stay := range [...]int{2 * stays, 4 * stays, allDay} {
		if pl := in.lateBy(l, stay, aDay); pl != nil {
			return pl, nil
		}
	}
	return nil, why
}

// longer returns the input with every shift so many minutes longer, and those of the day
// of serving by at least last minutes.
func (in Input) longer(minutes, last int) *Input {
	k := *in.Kitchen
	k.Hours = slices.Clone(k.Hours)
	for i := range k.Hours {
		by := minutes
		if k.Hours[i].Day(in.Serve) >= 0 {
			by = max(by, last)
		}
		k.Hours[i].To += by
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
