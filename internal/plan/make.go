package plan

import (
	"errors"
	"fmt"

	"hobside/internal/demand"
	"hobside/internal/plan/rcpsp"
)

// The default effort: schedules to find one that keeps the rules, and thousands of
// placements to improve it. For each of many trials fewer schedules are made.
const (
	findWithin = 400
	polishFor  = 20
	quickly    = 40
)

// thorough is how many activities the effort to improve a plan is enough for, about 40
// placements of each. The plan of a larger dinner says that improving it stopped early.
const thorough = 500

// mostActs is how many activities a plan can have, several times those of a dinner of
// 1,000 steps. The solver keeps a path between every two of them, and a phone has room
// for so many.
const mostActs = 3000

// Make plans a dinner. It returns a [*Blocked] when no plan keeps the rules, and
// another error when the input is incomplete. The same input gives the same plan on
// every machine.
//
// Before the dinner is under way every course is on time. When something is begun, the
// plan may exceed the keeping times of that, and says by how much; see [Input.anyway]
// for what else it may exceed under way.
func Make(in Input) (*Plan, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	in.explode()
	in = in.settled()
	nobody := in.nobody()
	if from, ok := in.deserted(); ok && (!in.Under || from <= in.Now) {
		return nil, nobody // no search finds anybody
	}
	pl, why := in.best()
	if pl != nil {
		return pl, nil
	}
	if in.Under || len(in.Progress) > 0 {
		pl, why = in.anyway(why)
	}
	if pl == nil && nobody != nil {
		return nil, nobody
	}
	return pl, why
}

// check returns an error that says what the input lacks.
func (in *Input) check() error {
	switch k := in.Kitchen; {
	case in.Dinner.Menu == nil:
		return errors.New("there is no menu to plan")
	case k == nil:
		return errors.New("there is no kitchen to plan in: name one in the menu, \"kitchen: my-kitchen.md\"")
	case !in.Serve.HasDate():
		return errors.New("the serving time has no date: a plan counts days, write it like \"serve: 2027-06-12 19:30\"")
	case len(k.Cooks) == 0:
		return fmt.Errorf("%s: nobody cooks there: add \"cooks: 2\" at the top, with how many there are", k.File)
	case len(axis{in.Serve, in.ClockChanges}.open(k)) == 0:
		return fmt.Errorf("%s: the kitchen is never open: add \"## Hours\" and a list, \"- Saturday 08:00–24:00\"", k.File)
	}
	return nil
}

// attempt plans with the ways given. Hand is the slack to leave behind steps, in
// per cent of what is wanted; −1 tries 100, then 50, then 0.
func (in *Input) attempt(ways map[string]int, hand int) (*Plan, error) {
	in.explode()
	if n := steps(in.Demand); n > mostActs {
		return nil, tooLarge(n)
	}
	if hand >= 0 {
		return in.share(ways, hand)
	}
	var first error
	hands := []int{100, 50, 0}
	if len(in.Known) > 0 {
		hands = hands[2:] // the accepted plan has its slack already
	}
	for _, hand := range hands {
		pl, err := in.share(ways, hand)
		if pl != nil {
			return pl, nil
		}
		first = err // the last one counts: the reason that remains without slack
		if b := new(Blocked); errors.As(err, &b) && b.always {
			break
		}
	}
	return nil, first
}

// solve makes one plan for the ways and slack given.
func (in *Input) solve(ways map[string]int, hand int) (*Plan, error) {
	p, err := in.project(ways, hand)
	if err != nil {
		return nil, err
	}
	if len(p.acts) > thorough {
		p.notes = append(p.notes, fmt.Sprintf("the dinner comes to %d pieces of work, and improving its plan stopped early: it keeps every rule, but its cooks may change cards more often than they have to", len(p.acts)))
	}
	if len(in.Known) > 0 {
		if starts, ok := in.keep(p); ok {
			return p.plan(in, starts, hand), nil
		}
	}
	m, s, rep, err := in.first(p)
	if err != nil {
		return nil, p.blocked(m, rep, err)
	}
	effort := in.Placements
	switch {
	case effort > 0:
	case len(in.Known) > 0:
		effort = polishFor / 2 // the accepted plan is a good start
	default:
		effort = polishFor
	}
	if better, _, err := rcpsp.ReduceCost(m.Problem, s, rcpsp.Budget{Schedules: max(1, effort*1000/max(1, len(p.acts))), Seed: 1}); err == nil {
		s = better
	}
	if err := rcpsp.Check(m.Problem, s); err != nil {
		return nil, fmt.Errorf("the plan would break a rule and is not shown: %w", err)
	}
	starts := m.starts(s)
	if len(in.Known) == 0 && in.Placements != 1 {
		seeds := mostSeeds
		if in.Under {
			seeds = 1
		}
		arranged := p.arrange(m, starts, arrangeFor*1000, seeds)
		if p.fixed() || rcpsp.Check(m.Problem, m.schedule(arranged)) == nil {
			starts = arranged // arranging does not know that a cook or an oven is there for a while only
		}
		if err := rcpsp.Check(m.Problem, m.schedule(starts)); err != nil {
			return nil, fmt.Errorf("the plan would break a rule and is not shown: %w", err)
		}
	}
	return p.plan(in, starts, hand), nil
}

// project builds the project of a dinner. It returns a [*Blocked] when the kitchen lacks
// something for it or it is too large.
func (in *Input) project(ways map[string]int, hand int) (*project, error) {
	p := build(in, in.Demand, ways, hand)
	switch {
	case len(p.missing) > 0:
		return nil, &Blocked{Because: p.missing, Lacking: p.lacking, always: true}
	case len(p.old) > 0:
		return nil, &Blocked{Because: p.old, Steps: p.oldSteps, waits: p.oldWaits, always: true}
	case len(p.acts) > mostActs:
		return nil, tooLarge(len(p.acts))
	}
	return p, nil
}

// first finds a schedule that keeps the rules of a project.
func (in *Input) first(p *project) (mirrored, rcpsp.Schedule, rcpsp.Report, error) {
	m := p.mirror(p.from, in.Known)
	budget := rcpsp.Budget{Schedules: findWithin, Seed: 1}
	if in.quick {
		budget.Schedules = quickly
	}
	if len(in.Known) > 0 {
		budget.Initial = m.schedule(p.knownStarts(in.Known))
	}
	s, rep, err := rcpsp.Solve(m.Problem, budget)
	return m, s, rep, err
}

// steps returns how many steps there are in all batches of a dinner.
func steps(d *demand.Demand) int {
	n := 0
	for _, comp := range d.Components {
		n += len(comp.Batches) * len(comp.Card.Steps)
	}
	return n
}

// tooLarge returns the reason why a dinner with so many pieces of work has no plan.
func tooLarge(n int) *Blocked {
	return &Blocked{Because: []string{fmt.Sprintf("the dinner comes to %d pieces of work in this kitchen, and a plan can have %d: "+
		"cook it in larger batches, or as several dinners", n, mostActs)}, always: true, large: true}
}

// begins returns the first minute a plan may use: the kitchen's first opening, or
// now.
func (p *project) begins(in *Input) int {
	from := p.end - aDay
	if len(p.open) > 0 {
		from = min(p.open[0].from, p.end)
	}
	if in.Under {
		from = min(max(from, in.Now), p.end)
	}
	return from
}

// knownStarts returns the starts of the accepted plan; new steps get the latest
// start.
func (p *project) knownStarts(known map[Step]int) []int {
	out := make([]int, len(p.acts))
	for i := range p.acts {
		a := &p.acts[i]
		t, ok := known[p.tasks[a.task].Step]
		switch {
		case a.held:
			t = a.start
		case a.heats && ok:
			t -= a.dur
		case !ok:
			t = p.end - a.dur
		case a.wait && i > 0 && p.acts[i-1].task == a.task:
			t = out[i-1] + p.acts[i-1].dur
		}
		out[i] = t
	}
	return out
}
