package engine

import (
	"errors"
	"fmt"

	"hobside/internal/dinner"
	"hobside/internal/menu"
	"hobside/internal/plan"
)

// PlanCall asks for the plan of an open dinner. The engine has no clock: the
// caller says what time it is, and where its clocks change.
type PlanCall struct {
	Dinner       string            `json:"dinner"`
	ServeAt      int64             `json:"serveAt"`      // the serving time, Unix milliseconds
	Now          int64             `json:"now"`          // Unix milliseconds
	ClockChanges []ClockChangeView `json:"clockChanges"` // changes of the clocks from weeks before to days after the serving time, in order
	Fresh        bool              `json:"fresh"`        // work it out anew, whatever plan the cooks know
	Full         bool              `json:"full"`         // also the chances, and what would free a dinner that can't be done
}

// ClockChangeView is a change of the clocks.
type ClockChangeView struct {
	Wall string `json:"wall"` // by the old clock, "2006-01-02T15:04"
	By   int    `json:"by"`   // minutes they are put on by
}

// plan works a dinner back from its serving time.
func (e *Engine) plan(in PlanCall) (*PlanView, error) {
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	if f.state == nil || f.state.Open == nil || f.demand == nil {
		return nil, errors.New("the dinner's menu is not on this phone yet: it comes with the next sync")
	}
	ask, err := f.planInput(in)
	if err != nil {
		return nil, err
	}
	v := newPlanView(f)
	now := f.minute(in, in.Now)
	v.Past = ask.Dinner.Menu != nil && ask.Past(now)
	ask.Now, ask.Under = now, ask.Kitchen != nil && ask.Dinner.Menu != nil && ask.UnderWay(now)
	v.Under = ask.Under
	known := f.known(in, ask)
	if !in.Fresh {
		ask.Known = known
	}
	made, err := plan.Make(ask)
	blocked := new(plan.Blocked)
	switch {
	case errors.As(err, &blocked):
		v.Blocked = append(v.Blocked, blocked.Because...)
		if in.Full {
			for _, c := range ask.Free(blocked) {
				v.Changes = append(v.Changes, ChangeView(c))
			}
		}
		return v, nil
	case err != nil:
		v.Blocked = append(v.Blocked, err.Error())
		return v, nil
	}
	e.planView(f, v, made, known)
	if in.Full {
		planChances(v, made)
	}
	return v, nil
}

// planInput gathers what the plan needs from the dinner as it is now.
func (f *followed) planInput(in PlanCall) (plan.Input, error) {
	out := plan.Input{Dinner: f.input(), Progress: map[plan.Step]plan.Progress{}, Delays: map[plan.Step]int{}, Later: map[plan.Step]int{}}
	if k := f.docs[f.state.Open.Kitchen]; k != nil {
		out.Kitchen = k.Kitchen
	}
	serve, what := menu.ParseWhen(f.state.Serve)
	if f.state.Serve != "" && what != "" {
		return out, errors.New(what)
	}
	out.Serve = serve
	for _, s := range in.ClockChanges {
		w, what := menu.ParseWhen(s.Wall)
		if what != "" || s.By < -24*60 || s.By > 24*60 {
			return out, fmt.Errorf("a change of the clocks at %q by %d minutes is none", s.Wall, s.By)
		}
		out.ClockChanges = append(out.ClockChanges, plan.ClockChange{Wall: w, By: s.By})
	}
	for key, minutes := range f.state.Delays {
		if s, ok := planStep(key); ok {
			out.Delays[s] = minutes
		}
	}
	for key, at := range f.state.Later {
		if s, ok := planStep(key); ok {
			out.Later[s] = f.minute(in, at)
		}
	}
	f.progress(in, out.Progress)
	return out, nil
}

// progress writes down what is begun and done. A step that is ticked while its
// timer runs is waited for.
func (f *followed) progress(in PlanCall, out map[plan.Step]plan.Progress) {
	s := f.state
	begin := func(key string, at int64) {
		if step, ok := planStep(key); ok {
			t := f.minute(in, at)
			p := out[step]
			if !p.Begun || t < p.Start {
				p.Start = t
			}
			p.Begun = true
			out[step] = p
		}
	}
	end := func(key string, at int64) {
		if step, ok := planStep(key); ok {
			p := out[step]
			p.End, p.Done = f.minute(in, at), true
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
		if step, ok := planStep(key); ok && t.End > in.Now {
			p := out[step]
			p.Done, p.End = false, f.minute(in, t.End)
			out[step] = p
		}
	}
}

// minute is a moment as the plan counts it, in minutes after the serving time.
func (f *followed) minute(in PlanCall, at int64) int {
	const perMinute = 60_000
	ms := at - in.ServeAt
	if ms < 0 {
		ms -= perMinute - 1
	}
	return int(ms / perMinute)
}

func planStep(key string) (plan.Step, bool) {
	k, ok := dinner.ParseKey(key)
	return plan.Step{Card: k.Card, Batch: k.Batch, Step: k.Step}, ok && k.Step > 0
}

func planKey(s plan.Step) string { return dinner.StepKey(s.Card, s.Batch, s.Step) }

// known is the plan the cooks go by: the one taken last, else the one worked
// out before anything was begun.
func (f *followed) known(in PlanCall, ask plan.Input) map[plan.Step]int {
	if p := f.state.Plan; p != nil {
		out := map[plan.Step]int{}
		for key, at := range p.Starts {
			if s, ok := planStep(key); ok {
				out[s] = at
			}
		}
		return out
	}
	if !ask.Under {
		return nil
	}
	ask.Under, ask.Progress, ask.Delays, ask.Later = false, nil, nil, nil
	made, err := plan.Make(ask)
	if err != nil {
		return nil
	}
	return made.Starts()
}
