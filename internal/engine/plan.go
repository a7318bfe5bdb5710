package engine

import (
	"errors"
	"fmt"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/plan"
)

// plan works a dinner back from its serving time.
func (e *Engine) plan(in PlanCall) (*PlanView, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
	}
	clock := dinner.PlanClock{ServeAt: in.ServeAt, Now: in.Now}
	for _, s := range in.ClockChanges {
		wall, wrong := document.ParseWhen(s.Wall)
		if wrong != "" || s.By < -24*60 || s.By > 24*60 {
			return nil, fmt.Errorf("a change of the clocks at %q by %d minutes is none", s.Wall, s.By)
		}
		clock.Changes = append(clock.Changes, plan.ClockChange{Wall: wall, By: s.By})
	}
	p, err := f.Plan(clock, in.Fresh)
	if err != nil {
		return nil, err
	}
	v := newPlanView(f, p)
	blocked := new(plan.Blocked)
	switch {
	case errors.As(p.Err, &blocked):
		v.Blocked = append(v.Blocked, blocked.Because...)
		if in.Full {
			for _, c := range p.Input.Free(blocked) {
				v.Changes = append(v.Changes, ChangeView(c))
			}
		}
		return v, nil
	case p.Err != nil:
		v.Blocked = append(v.Blocked, p.Err.Error())
		return v, nil
	}
	e.writePlan(f, v, p)
	if in.Full {
		writeChances(v, p.Plan)
	}
	return v, nil
}

// newPlanView is the view of a dinner that has no plan yet.
func newPlanView(f *followed, p *dinner.Planned) *PlanView {
	v := &PlanView{Under: p.Under, Past: p.Past, Blocked: []string{}, Changes: []ChangeView{}, Tasks: []TaskView{}, Courses: []PlanCourse{}, Cooks: []string{}, Places: []string{},
		Hours: []PlanHours{}, Ways: []PlanWay{}, Assumed: []string{}, Notes: []string{}, Moves: []string{}, Starts: map[string]int{}, Chances: []ChanceView{}, Decide: []string{}}
	if k := f.Worked().Kitchen; k != nil {
		v.Cooks = append(v.Cooks, k.Cooks...)
	}
	return v
}

// writePlan writes a plan, and what differs from the one that the cooks know.
func (e *Engine) writePlan(f *followed, v *PlanView, made *dinner.Planned) {
	p, w := made.Plan, f.Worked()
	v.Tasks = each(p.Tasks, func(t plan.Task) TaskView { return e.taskView(w, made, t) })
	v.Places = made.Input.PlacesUsed(p)
	v.Courses = each(p.Courses, func(c plan.Course) PlanCourse {
		return PlanCourse{Name: c.Name, At: c.At, Wall: p.Reading(c.At).String(), Late: c.At - c.Due}
	})
	v.Hours = each(p.Hours(), func(h [2]int) PlanHours {
		return PlanHours{From: h[0], To: h[1], Wall: p.Reading(h[0]).String(), End: p.Reading(h[1]).String()}
	})
	v.Ways = each(p.Ways, func(c plan.Choice) PlanWay {
		of := w.Input.Cards[c.Card]
		return PlanWay{Card: c.Card, Title: of.Title, Number: c.Way, Way: of.Ways[c.Way-1].Name, Why: c.Why, Taken: w.Way(of) == c.Way}
	})
	v.Assumed = each(p.Assumed, p.AssumptionText)
	v.Notes = list(p.Notes)
	v.Moves = each(p.Moves(made.Known), p.MoveText)
	for s, at := range p.Starts() {
		v.Starts[dinner.PlanKey(s)] = at
	}
}

// taskView writes one task of a plan.
func (e *Engine) taskView(w *dinner.Worked, made *dinner.Planned, t plan.Task) TaskView {
	p := made.Plan
	v := TaskView{Key: dinner.PlanKey(t.Step), At: dinner.StepPlace{Card: t.Card, Batch: t.Batch, Step: t.Step.Step}, Title: w.Title(t.Card), Start: t.Start, Free: t.Free, End: t.End, Latest: t.Latest,
		From: p.Reading(t.Start).String(), To: p.Reading(t.End).String(), Cook: t.Cook, On: each(t.On, made.Input.PlaceName), Held: t.Held, Done: t.Done}
	if comp := w.Demand.ByCard[t.Card]; comp != nil && t.Step.Step <= len(comp.Card.Steps) {
		s := &comp.Card.Steps[t.Step.Step-1]
		v.Number, v.Say, v.Heat = s.Number, s.Beginning(), s.Heat(e.show)
		if len(comp.Batches) > 1 {
			v.Title += fmt.Sprintf(", %d of %d", t.Batch, len(comp.Batches))
		}
	}
	if t.Loads > 0 {
		v.Load = fmt.Sprintf("load %d of %d", t.Load, t.Loads)
	}
	if t.Overdue > 0 {
		v.Overdue = document.FormatSeconds(t.Overdue * 60)
	}
	return v
}

// writeChances plays the plan through and writes how it fares.
func writeChances(v *PlanView, p *plan.Plan) {
	const runs = 500
	ch := p.Chances(runs, 1)
	v.Chances = each(ch.Courses, func(c plan.CourseChance) ChanceView {
		return ChanceView{Course: c.Name, Percent: int(c.OnTime*100 + 0.5), Late: c.Late}
	})
	v.Decide = each(ch.Decide, p.DeciderText)
}
