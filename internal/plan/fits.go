package plan

import (
	"errors"
	"slices"

	"hobside/internal/plan/rcpsp"
)

// fits reports whether there is a plan with the ways given. It looks for a first schedule as
// [Input.attempt] does without slack, and neither improves it nor says what is in the way.
func (in Input) fits(ways map[string]int) bool {
	try := func(c crews) (*project, error) {
		in.crews = c
		return in.fitsSo(ways, 0)
	}
	p, err := try(crews{})
	if p == nil || err == nil {
		return err == nil
	}
	shared := p.shared()
	if len(shared) == 0 || p.unshared(err) {
		return false
	}
	if len(in.Kitchen.Cooks) > 2 {
		if _, err = try(crews{most: 2}); err == nil {
			return true
		}
	}
	alone := crews{alone: map[string]bool{}}
	for _, id := range shared {
		alone.alone[id] = true
	}
	_, err = try(alone)
	return err == nil
}

// fitsSo looks for a first schedule with the ways, the slack and the sharing of work given.
// It returns the project, nil where the kitchen lacks something, and an error where none
// was found.
func (in *Input) fitsSo(ways map[string]int, hand int) (*project, error) {
	p, err := in.project(ways, hand)
	if err == nil {
		_, _, _, err = in.first(p)
	}
	return p, err
}

// unshared reports whether a project is impossible whoever shares its work: times
// contradict each other, and none is of a card of which cooks share a step.
func (p *project) unshared(err error) bool {
	why := new(rcpsp.InfeasibleError)
	if !errors.As(err, &why) || len(why.Cycle) == 0 {
		return false
	}
	shared := p.shared()
	of := func(i int) bool {
		return i >= 0 && i < len(p.acts) && slices.Contains(shared, p.tasks[p.acts[i].task].Card)
	}
	return !slices.ContainsFunc(why.Cycle, func(l rcpsp.Lag) bool { return of(l.From) || of(l.To) })
}
