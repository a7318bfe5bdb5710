package dinner

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// A Preview is what a change would do to the dinner, before it is taken.
type Preview struct {
	Trouble string   `json:"trouble"` // why it can't be taken; "" where it can
	Events  []Draft  `json:"events"`  // what takes it; empty where there is nothing to take
	Blocked bool     `json:"blocked"` // with it there would be no plan
	Courses []string `json:"courses"` // which courses go out at another time, late, or not at all
	Steps   []string `json:"steps"`   // who does what, when: what moves and what changes hands
	Amounts []string `json:"amounts"` // what is short, what is made otherwise
	Clashes []string `json:"clashes"` // plates that guests can't have
}

// Preview returns what a wish would do. It changes nothing. It fails for a dinner whose
// menu is not here yet and for a serving time that can't be read.
func (l *Live) Preview(clock PlanClock, w Wish, show quantity.Prefs) (*Preview, error) {
	now, err := l.Plan(clock, false)
	if err != nil {
		return nil, err
	}
	p := l.propose(w, now.Input, clock.minute(clock.Now))
	if p.trouble != "" {
		return &Preview{Trouble: p.trouble}, nil
	}
	if w.What == Late && w.Minutes == 0 {
		return l.asItStands(now), nil
	}
	return l.previewOf(clock, now, p.events, show)
}

// previewOf returns what some events would do.
func (l *Live) previewOf(clock PlanClock, now *Planned, drafts []Draft, show quantity.Prefs) (*Preview, error) {
	other := *l
	other.events, other.planned = maps.Clone(l.events), nil
	var last Stamp
	for _, ev := range l.events {
		if ev.Stamp.Compare(last) > 0 {
			last = ev.Stamp
		}
	}
	at := clock
	var events []Event
	for i, d := range drafts {
		last = Next(clock.Now, last)
		ev := Event{ID: fmt.Sprintf("preview-%04d", i), Dinner: l.ID, Device: "preview", Stamp: last, Kind: d.Kind, Number: d.Number, Text: d.Text, Do: d.Do}
		if err := Validate(ev); err != nil {
			return &Preview{Trouble: err.Error()}, nil
		}
		if d.Kind == KindServe {
			later := moved(now.Input, d.Text)
			at.ServeAt += int64(later) * 60_000
		}
		events = append(events, ev)
	}
	other.Take(nil, events)
	then, err := other.Plan(at, false)
	if err != nil {
		return nil, err
	}
	out := &Preview{Events: drafts}
	out.plans(now, then, at.ServeAt-clock.ServeAt)
	out.amounts(l, &other, show)
	out.clashes(l.worked, other.worked)
	return out, nil
}

// moved returns by how many minutes a serving time is later than that of an input.
func moved(in plan.Input, wall string) int {
	at, wrong := document.ParseWhen(wall)
	if wrong != "" || !at.HasDate() {
		return 0
	}
	return at.Sub(in.Serve)
}

// asItStands returns what the plan itself says of lateness, for a cook who does not know
// how late it gets, with the serving time that the kitchen can keep.
func (l *Live) asItStands(now *Planned) *Preview {
	out := &Preview{}
	out.plans(now, now, 0)
	if now.Plan == nil {
		return out
	}
	late := 0
	for _, c := range now.Plan.Courses {
		late = max(late, c.At-c.Due)
	}
	if late > 0 {
		out.Events = []Draft{{Kind: KindServe, Text: now.Input.Serve.Add(late).String()}}
	}
	return out
}

// mostShown is how many steps a preview lists.
const mostShown = 8

// plans adds what differs between two plans. The second counts its minutes from a serving
// time that is later by some milliseconds.
func (out *Preview) plans(now, then *Planned, later int64) {
	if then.Err != nil {
		out.Blocked = true
		why := then.Err.Error()
		if b := new(plan.Blocked); errors.As(then.Err, &b) {
			why = strings.Join(b.Because[:min(2, len(b.Because))], "; ")
		}
		text := "There is no plan with it: "
		if now.Err != nil {
			text = "There is no plan, with it or without: "
		}
		out.Courses = []string{text + why}
		return
	}
	out.courses(now.Plan, then.Plan)
	if now.Plan == nil {
		out.Courses = append([]string{"There is a plan again"}, out.Courses...)
		return
	}
	shift := int(later / 60_000)
	known := map[plan.Step]int{}
	for step, at := range now.Plan.Starts() {
		known[step] = at - shift
	}
	moves := then.Plan.Moves(known)
	for _, m := range moves[:min(mostShown, len(moves))] {
		out.Steps = append(out.Steps, then.Plan.MoveText(m)+by(then, m.Step))
	}
	if n := len(moves) - mostShown; n > 0 {
		out.Steps = append(out.Steps, "and "+plural(n, "more step moves", "more steps move"))
	}
	out.hands(now, then)
}

// by names the cooks of a step, after a comma.
func by(p *Planned, of plan.Step) string {
	for i := range p.Plan.Tasks {
		if t := &p.Plan.Tasks[i]; t.Step == of && t.Cook > 0 {
			return ", " + who(p.Input.Kitchen.Cooks, t)
		}
	}
	return ""
}

// courses adds when courses go out, where that differs or is late.
func (out *Preview) courses(now, then *plan.Plan) {
	for i, c := range then.Courses {
		at := then.Reading(c.At)
		late := ""
		if c.At > c.Due && !c.Struck {
			late = fmt.Sprintf(", %d min late", c.At-c.Due)
		}
		var before *plan.Course
		if now != nil && i < len(now.Courses) {
			before = &now.Courses[i]
		}
		switch {
		case c.Struck && (before == nil || !before.Struck):
			out.Courses = append(out.Courses, c.Name+" is not served")
		case c.Struck:
		case before != nil && !before.Struck && now.Reading(before.At) != at:
			out.Courses = append(out.Courses, c.Name+" goes out at "+at.Clock()+", was "+now.Reading(before.At).Clock()+late)
		case late != "" || before != nil && before.Struck:
			out.Courses = append(out.Courses, c.Name+" goes out at "+at.Clock()+late)
		}
	}
	if len(out.Courses) == 0 {
		out.Courses = []string{"Every course goes out on time"}
	}
}

// hands adds who takes steps over from whom.
func (out *Preview) hands(now, then *Planned) {
	before := map[plan.Step]string{}
	for i := range now.Plan.Tasks {
		t := &now.Plan.Tasks[i]
		before[t.Step] = who(now.Input.Kitchen.Cooks, t)
	}
	steps := map[string][]*plan.Task{}
	for i := range then.Plan.Tasks {
		t := &then.Plan.Tasks[i]
		if t.Held || t.Load > 1 || t.Cook == 0 {
			continue
		}
		is := who(then.Input.Kitchen.Cooks, t)
		if was, ok := before[t.Step]; ok && was != "" && was != is {
			steps[is] = append(steps[is], t)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(steps)) {
		first := steps[name][0]
		out.Steps = append(out.Steps, fmt.Sprintf("%s takes %s over, first %s at %s", name, plural(len(steps[name]), "step", "steps"),
			then.Plan.Name(first.Step), then.Plan.Clock(first.Start)))
	}
	for _, note := range then.Plan.Notes {
		if !slices.Contains(now.Plan.Notes, note) {
			out.Steps = append(out.Steps, note)
		}
	}
}

// amounts adds what is short with it, and which cards are made otherwise or not at all.
func (out *Preview) amounts(now, then *Live, show quantity.Prefs) {
	if now.worked == then.worked {
		return
	}
	a, b := now.worked.Demand, then.worked.Demand
	var other, gone []string
	for _, comp := range b.Components {
		was := a.ByCard[comp.Card.ID]
		if m := then.Means(comp, show); m != nil && m.Short != "" {
			if before := now.shortOf(was, show); before != m.Short {
				out.Amounts = append(out.Amounts, then.worked.Title(comp.Card.ID)+": "+m.Short+" more to make, or fewer covers")
				continue
			}
		}
		if was == nil || was.Made.Cmp(comp.Made) != 0 {
			other = append(other, then.worked.Title(comp.Card.ID))
		}
	}
	for _, comp := range a.Components {
		if b.ByCard[comp.Card.ID] == nil {
			gone = append(gone, now.worked.Title(comp.Card.ID))
		}
	}
	if len(gone) > 0 {
		out.Amounts = append(out.Amounts, "Not made any more: "+strings.Join(gone, ", "))
	}
	if len(other) > 0 {
		out.Amounts = append(out.Amounts, "Other amounts: "+strings.Join(other, ", "))
	}
}

// shortOf returns what is short of a component, "" for nothing.
func (l *Live) shortOf(comp *demand.Component, show quantity.Prefs) string {
	if comp != nil {
		if m := l.Means(comp, show); m != nil {
			return m.Short
		}
	}
	return ""
}

// clashes adds the plates that guests can't have, where they could before.
func (out *Preview) clashes(now, then *Worked) {
	texts := func(w *Worked) []string {
		var all []string
		for _, c := range w.Clashes {
			g, what := w.Menu.Guests[c.Group-1], "not assessed: "
			switch {
			case c.Sure:
				what = "has "
			case c.May:
				what = "may have "
			}
			all = append(all, fmt.Sprintf("%s%s: %s %s%s", plural(g.Covers, "cover", "covers"), larder.Without(g.Exclude), c.Plate, what, below(c.Via)))
		}
		return all
	}
	before := texts(now)
	for _, text := range texts(then) {
		if !slices.Contains(before, text) && !slices.Contains(out.Clashes, text) {
			out.Clashes = append(out.Clashes, text)
		}
	}
}
