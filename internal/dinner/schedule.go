package dinner

import (
	"errors"
	"fmt"

	"hobside/internal/document"
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// A Schedule is a dinner worked back from its serving time, as one cook reads it. All minutes are
// after the serving time, so most are negative.
type Schedule struct {
	Under   bool           `json:"under"`   // the kitchen is at work: what is done is held, the rest moves
	Past    bool           `json:"past"`    // the serving time is long past: the plan is as it would have been
	Blocked []string       `json:"blocked"` // why there is no plan, the main reason first; empty when there is one
	Changes []plan.Change  `json:"changes"` // what would make it possible, each tried
	Tasks   []Task         `json:"tasks"`   // by start
	Heats   []HeatTime     `json:"heats"`   // when equipment is turned on and plates are put to warm or chill, by start
	Full    []string       `json:"full"`    // what is overfull, or too few, when, with what is in it
	Room    []string       `json:"room"`    // how full the fridge, the freezer and the hot cupboard are at most, and when
	Courses []CourseTime   `json:"courses"`
	Cooks   []string       `json:"cooks"`
	Places  []string       `json:"places"` // rings, shelves, machines that are used, in the kitchen's order
	Hours   []ShiftTime    `json:"hours"`  // when the kitchen is open
	Ways    []WayTaken     `json:"ways"`
	Assumed []string       `json:"assumed"` // waiting times no card gives
	Notes   []string       `json:"notes"`
	Moves   []string       `json:"moves"`  // what differs from the plan that the cooks go by
	Starts  map[string]int `json:"starts"` // by step key, for the event that takes this plan
	Chances []Chance       `json:"chances"`
	Decide  []string       `json:"decide"`  // the steps to watch: they decide whether a course is late
	Collide []string       `json:"collide"` // two cooks who may want one place at the same time
	Slack   string         `json:"slack"`   // where ten minutes more help most; "" for nowhere
}

// A Task is one step, or one load of it, in time.
type Task struct {
	Key     string    `json:"key"` // of the step
	At      StepPlace `json:"at"`
	Title   string    `json:"title"`
	Number  int       `json:"number"`
	Load    string    `json:"load"` // "load 1 of 3", "" when all goes at once
	Say     string    `json:"say"`  // how the step begins
	Start   int       `json:"start"`
	Free    int       `json:"free"` // the cook is free again
	End     int       `json:"end"`
	Latest  int       `json:"latest"` // the latest start that breaks no rule, all else as planned
	From    string    `json:"from"`   // wall clock of Start
	To      string    `json:"to"`     // of End
	Cook    int       `json:"cook"`   // 1 + index in Cooks, 0 when no cook is needed
	With    []int     `json:"with"`   // the cooks who share the work, counted like Cook
	Who     string    `json:"who"`    // their names, "first cook with second cook"; "" when no cook is needed
	On      []string  `json:"on"`     // of Places
	Heat    string    `json:"heat"`   // "oven 220 °C, 2 shelves"
	Held    bool      `json:"held"`   // begun or done
	Done    bool      `json:"done"`
	Overdue string    `json:"overdue"` // "20 min" past its keeping time, "" for none
}

// A HeatTime is when equipment is turned on for a step or to another temperature, or plates are
// put into it.
type HeatTime struct {
	Key   string `json:"key"` // HeatKey, HoldKey or PlatesKey, for its tick
	Start int    `json:"start"`
	From  string `json:"from"` // wall clock of Start
	Say   string `json:"say"`
}

// A CourseTime is the time at which a course is served.
type CourseTime struct {
	Name string `json:"name"`
	At   int    `json:"at"`
	Wall string `json:"wall"`
	Late int    `json:"late"` // minutes after the menu's time

	Struck bool `json:"struck"` // it is not served
}

// A ShiftTime is a shift of the kitchen's hours.
type ShiftTime struct {
	From int    `json:"from"`
	To   int    `json:"to"`
	Wall string `json:"wall"` // of From
	End  string `json:"end"`  // of To
}

// A WayTaken is the way in which the plan makes a card that has several.
type WayTaken struct {
	Card   string `json:"card"`
	Title  string `json:"title"`
	Number int    `json:"number"` // 1 + index, for the event that takes it
	Way    string `json:"way"`
	Why    string `json:"why"`
	Taken  bool   `json:"taken"` // the cook has chosen this way
}

// A Chance is how likely a course is served on time.
type Chance struct {
	Course  string `json:"course"`
	Percent int    `json:"percent"`
	Late    int    `json:"late"` // minutes late in all but the worst of twenty
}

// Schedule returns a plan as one cook reads it. Full adds the chances, and for a
// dinner that can't be done the changes that would make it possible: both take
// time.
func (l *Live) Schedule(p *Planned, show quantity.Prefs, full bool) *Schedule {
	s := &Schedule{Under: p.Under, Past: p.Past}
	if k := p.Input.Kitchen; k != nil {
		s.Cooks = k.Cooks
	}
	blocked := new(plan.Blocked)
	switch {
	case errors.As(p.Err, &blocked):
		s.Blocked = blocked.Because
		if full {
			s.Changes = p.Input.Free(blocked)
		}
		return s
	case p.Err != nil:
		s.Blocked = []string{p.Err.Error()}
		return s
	}
	l.worked.schedule(s, p, show)
	if full {
		s.simulate(p.Plan)
	}
	return s
}

// schedule adds a plan, and what differs from the one that the cooks know.
func (w *Worked) schedule(s *Schedule, made *Planned, show quantity.Prefs) {
	p := made.Plan
	for i := range p.Tasks {
		s.Tasks = append(s.Tasks, w.task(made, &p.Tasks[i], show))
	}
	s.Places = made.Input.PlacesUsed(p)
	for _, h := range p.Heatings {
		s.Heats = append(s.Heats, HeatTime{Key: HeatKey(h.For.Card, h.For.Batch, h.For.Step), Start: h.At, From: p.Reading(h.At).String(), Say: made.Input.HeatingText(p, h)})
	}
	s.rooms(made)
	for _, c := range p.Courses {
		s.Courses = append(s.Courses, CourseTime{Name: c.Name, At: c.At, Wall: p.Reading(c.At).String(), Late: c.At - c.Due, Struck: c.Struck})
	}
	for _, h := range p.Hours() {
		s.Hours = append(s.Hours, ShiftTime{From: h[0], To: h[1], Wall: p.Reading(h[0]).String(), End: p.Reading(h[1]).String()})
	}
	for _, c := range p.Ways {
		of := w.Input.Cards[c.Card]
		s.Ways = append(s.Ways, WayTaken{Card: c.Card, Title: of.Title, Number: c.Way, Way: of.Ways[c.Way-1].Name, Why: c.Why, Taken: w.Way(of) == c.Way})
	}
	for _, a := range p.Assumed {
		s.Assumed = append(s.Assumed, p.AssumptionText(a))
	}
	s.Notes = p.Notes
	for _, m := range p.Moves(made.Known) {
		s.Moves = append(s.Moves, p.MoveText(m))
	}
	s.Starts = map[string]int{}
	for step, at := range p.Starts() {
		s.Starts[PlanKey(step)] = at
	}
}

// task returns one task of a plan as one cook reads it.
func (w *Worked) task(made *Planned, t *plan.Task, show quantity.Prefs) Task {
	p := made.Plan
	out := Task{Key: PlanKey(t.Step), At: StepPlace{t.Card, t.Batch, t.Step.Step}, Title: w.Title(t.Card), Start: t.Start, Free: t.Free, End: t.End, Latest: t.Latest,
		From: p.Reading(t.Start).String(), To: p.Reading(t.End).String(), Cook: t.Cook, With: t.With, Who: who(made.Input.Kitchen.Cooks, t), Held: t.Held, Done: t.Done}
	for _, place := range t.On {
		out.On = append(out.On, made.Input.PlaceName(place))
	}
	if comp := w.Demand.ByCard[t.Card]; comp != nil && t.Step.Step <= len(comp.Card.Steps) {
		step := &comp.Card.Steps[t.Step.Step-1]
		out.Number, out.Say, out.Heat = step.Number, step.Beginning(), step.Heat(show)
		if len(comp.Batches) > 1 {
			out.Title += fmt.Sprintf(", %d of %d", t.Batch, len(comp.Batches))
		}
	}
	if t.Loads > 0 {
		out.Load = fmt.Sprintf("load %d of %d", t.Load, t.Loads)
	}
	if t.Overdue > 0 {
		out.Overdue = document.FormatSeconds(t.Overdue * 60)
	}
	return out
}

// who names the cooks of a task, of those of the kitchen.
func who(cooks []string, t *plan.Task) string {
	if t.Cook == 0 {
		return ""
	}
	who := cooks[t.Cook-1]
	for i, k := range t.With {
		switch {
		case i == 0:
			who += " with "
		case i == len(t.With)-1:
			who += " and "
		default:
			who += ", "
		}
		who += cooks[k-1]
	}
	return who
}

// simulate adds how likely each course is on time, and the steps that decide it.
func (s *Schedule) simulate(p *plan.Plan) {
	const runs = 500
	ch := p.Chances(runs, 1)
	for _, c := range ch.Courses {
		s.Chances = append(s.Chances, Chance{Course: c.Name, Percent: int(c.OnTime*100 + 0.5), Late: c.Late})
	}
	for _, d := range ch.Decide {
		s.Decide = append(s.Decide, p.DeciderText(d))
	}
	for _, c := range ch.Collide {
		s.Collide = append(s.Collide, p.CollisionText(c))
	}
	if d, ok := ch.Slack(); ok {
		s.Slack = p.SlackText(d)
	}
}
