package dinner

import (
	"encoding/json"
	"errors"
	"slices"

	"hobside/internal/document"
	"hobside/internal/plan"
)

// A PlanClock tells the plan what time it is, because no pure room has a clock.
type PlanClock struct {
	ServeAt int64              // the serving time, Unix milliseconds
	Now     int64              // Unix milliseconds
	Changes []plan.ClockChange // of the clocks, from weeks before to days after the serving time, in order
}

// minute returns a moment, in Unix milliseconds, as the plan counts it: in whole
// minutes after the serving time.
func (c PlanClock) minute(at int64) int {
	const perMinute = 60_000
	ms := at - c.ServeAt
	if ms < 0 {
		ms -= perMinute - 1
	}
	return int(ms / perMinute)
}

// A Planned is the plan of a dinner as it is now.
type Planned struct {
	Input plan.Input        // what it was made from
	Past  bool              // the serving time is long past: the plan is as it would have been
	Under bool              // the kitchen is at work: what is begun is held, the rest moves
	Known map[plan.Step]int // the starts that the cooks know, nil when they know none
	Plan  *plan.Plan        // nil when Err says why there is none
	Err   error             // a *plan.Blocked where the dinner can't be done, else what the input lacks
}

// Plan works the dinner back from its serving time. Fresh asks for the best plan,
// whatever plan the cooks know; else what they know stays where it can. The
// error tells of a question that can't be answered; a dinner that can't be done
// is told in Planned.Err.
func (l *Live) Plan(clock PlanClock, fresh bool) (*Planned, error) {
	if l.worked == nil {
		return nil, errors.New("the dinner's menu is not on this phone yet: it comes with the next sync")
	}
	in, err := l.planInput(clock, l.state.Changes)
	if err != nil {
		return nil, err
	}
	out := &Planned{}
	now := clock.minute(clock.Now)
	out.Past = in.Dinner.Menu != nil && in.Past(now)
	in.Now, in.Under = now, in.Kitchen != nil && in.Dinner.Menu != nil && in.UnderWay(now)
	out.Under = in.Under
	out.Known = l.knownStarts(clock, in)
	if !fresh {
		in.Known = out.Known
	}
	out.Input = in
	out.Plan, out.Err = plan.Make(in)
	l.planned = out
	return out, nil
}

// planInput gathers what the plan needs from the dinner as it is now, with some of the
// changes that were said.
func (l *Live) planInput(clock PlanClock, said []Said) (plan.Input, error) {
	w, s := l.worked, l.state
	in := plan.Input{Dinner: w.Input, Demand: w.Demand, Kitchen: w.Kitchen, ClockChanges: clock.Changes, OnBuild: func() { l.count(Project) },
		Progress: map[plan.Step]plan.Progress{}, Delays: map[plan.Step]int{}, Later: map[plan.Step]int{}}
	serve, wrong := document.ParseWhen(s.Serve)
	if s.Serve != "" && wrong != "" {
		return in, errors.New(wrong)
	}
	in.Serve = serve
	for key, minutes := range s.Delays {
		if step, ok := stepOf(key); ok {
			in.Delays[step] = minutes
		}
	}
	for key, at := range s.Later {
		if step, ok := stepOf(key); ok {
			in.Later[step] = clock.minute(at)
		}
	}
	l.progress(clock, in.Progress)
	with := in.With(plan.Change{Do: inKitchen(said)})
	with.Dinner, with.Demand = in.Dinner, in.Demand // amounts are worked out once, with their batches
	return with, nil
}

// progress notes what is begun and done. A step that is ticked while its timer
// runs is waited for.
func (l *Live) progress(clock PlanClock, out map[plan.Step]plan.Progress) {
	s := l.state
	begin := func(key string, at int64) {
		if step, ok := stepOf(key); ok {
			t := clock.minute(at)
			p := out[step]
			if !p.Begun || t < p.Start {
				p.Start = t
			}
			p.Begun = true
			out[step] = p
		}
	}
	end := func(key string, at int64) {
		if step, ok := stepOf(key); ok {
			p := out[step]
			p.End, p.Done = clock.minute(at), true
			if !p.Begun {
				p.Start, p.Begun = p.End, true
			}
			p.End = max(p.End, p.Start)
			out[step] = p
		}
	}
	for key, m := range s.Starts {
		begin(key, m.At)
	}
	for key, t := range s.Timers {
		begin(key, t.Start)
	}
	for key, m := range s.Ends {
		end(key, m.At)
	}
	for key, tick := range s.Ticks {
		if tick.Done {
			end(key, tick.At)
		}
	}
	for key, t := range s.Timers {
		if step, ok := stepOf(key); ok && t.End > clock.Now {
			p := out[step]
			p.Done, p.End = false, clock.minute(t.End)
			out[step] = p
		}
	}
}

// stepOf reads the key of a step.
func stepOf(key string) (plan.Step, bool) {
	k, ok := ParseKey(key)
	return plan.Step{Card: k.Card, Batch: k.Batch, Step: k.Step}, ok && k.Step > 0
}

// PlanKey returns the key of a step of the plan.
func PlanKey(s plan.Step) string { return StepKey(s.Card, s.Batch, s.Step) }

// knownStarts are the starts that the cooks go by: those of the plan taken last,
// else those of the plan as it was before anything was begun. They are nil while
// nothing is under way and no plan was taken.
func (l *Live) knownStarts(clock PlanClock, in plan.Input) map[plan.Step]int {
	if p := l.state.Plan; p != nil {
		out := map[plan.Step]int{}
		for key, at := range p.Starts {
			if s, ok := stepOf(key); ok {
				out[s] = at
			}
		}
		return out
	}
	if !in.Under {
		return nil
	}
	return l.firstStarts(clock, in)
}

// A firstPlan remembers the plan as it was before anything was begun.
type firstPlan struct {
	basis  string
	starts map[plan.Step]int
}

// firstStarts are the starts of the plan before anything was begun, nil where there was
// none. Changes that were said since make no difference. The starts are worked out once
// for the same amounts, clocks and earlier changes.
func (l *Live) firstStarts(clock PlanClock, in plan.Input) map[plan.Step]int {
	said := slices.DeleteFunc(slices.Clone(l.state.Changes), func(c Said) bool { return in.UnderWay(clock.minute(c.At)) })
	b, _ := json.Marshal([]any{l.basis, in.Serve, in.ClockChanges, said})
	if l.first.basis == string(b) {
		return l.first.starts
	}
	l.first = firstPlan{basis: string(b)}
	first, err := l.planInput(clock, said)
	if err != nil {
		return nil
	}
	first.Progress, first.Delays, first.Later = nil, nil, nil
	if made, err := plan.Make(first); err == nil {
		l.first.starts = made.Starts()
	}
	return l.first.starts
}
