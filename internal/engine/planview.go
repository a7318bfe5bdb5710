package engine

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/menu"
	"hobside/internal/plan"
)

// PlanView is a dinner worked back from its serving time. All minutes are
// after the serving time, so most are negative.
type PlanView struct {
	Under   bool           `json:"under"`   // the kitchen is at it: what is done is held, the rest moves
	Past    bool           `json:"past"`    // the serving time is long past: the plan is as it would have been
	Blocked []string       `json:"blocked"` // why there is no plan, the plainest first; empty when there is one
	Changes []ChangeView   `json:"changes"` // what would free it, each tried
	Tasks   []TaskView     `json:"tasks"`   // by start
	Courses []PlanCourse   `json:"courses"`
	Cooks   []string       `json:"cooks"`
	Places  []string       `json:"places"` // rings, shelves, machines that are used, in the kitchen's order
	Hours   []PlanHours    `json:"hours"`  // when the kitchen is open
	Ways    []PlanWay      `json:"ways"`
	Assumed []string       `json:"assumed"` // waiting times no card gives
	Notes   []string       `json:"notes"`
	Moves   []string       `json:"moves"`  // what differs from the plan the cooks know
	Starts  map[string]int `json:"starts"` // by step key, for the event that takes this plan
	Chances []ChanceView   `json:"chances"`
	Decide  []string       `json:"decide"` // the steps that decide whether a course is late
}

// ChangeView would free a dinner that can't be done.
type ChangeView struct {
	Text   string `json:"text"`
	Effect string `json:"effect"`
}

// TaskView is one step, or one load of it, in time.
type TaskView struct {
	Key     string   `json:"key"` // dinner.StepKey
	Title   string   `json:"title"`
	Number  int      `json:"number"`
	Load    string   `json:"load"` // "load 1 of 3", "" when all goes at once
	Say     string   `json:"say"`  // how the step begins
	Start   int      `json:"start"`
	Free    int      `json:"free"` // the cook is free again
	End     int      `json:"end"`
	Latest  int      `json:"latest"` // a start later than that breaks a rule, all else as planned
	From    string   `json:"from"`   // wall clock of Start
	To      string   `json:"to"`     // of End
	Cook    int      `json:"cook"`   // 1 + index in Cooks, 0 when nobody is needed
	On      []string `json:"on"`     // of Places
	Heat    string   `json:"heat"`   // "oven 220 °C, 2 shelves"
	Held    bool     `json:"held"`   // begun or done
	Done    bool     `json:"done"`
	Overdue string   `json:"overdue"` // "20 min" past its keeping time, "" for none
}

// PlanCourse is when a course goes out.
type PlanCourse struct {
	Name string `json:"name"`
	At   int    `json:"at"`
	Wall string `json:"wall"`
	Late int    `json:"late"` // minutes after the menu's time
}

// PlanHours is a shift of the kitchen's hours.
type PlanHours struct {
	From int    `json:"from"`
	To   int    `json:"to"`
	Wall string `json:"wall"` // of From
	End  string `json:"end"`  // of To
}

// PlanWay is the way the plan goes of a card that has several.
type PlanWay struct {
	Card   string `json:"card"`
	Title  string `json:"title"`
	Number int    `json:"number"` // 1 + index, for the event that takes it
	Way    string `json:"way"`
	Why    string `json:"why"`
	Taken  bool   `json:"taken"` // the dinner goes that way already
}

// ChanceView is how likely a course goes out on time.
type ChanceView struct {
	Course  string `json:"course"`
	Percent int    `json:"percent"`
	Late    int    `json:"late"` // minutes late in all but the worst of twenty
}

func newPlanView(f *followed) *PlanView {
	v := &PlanView{Blocked: []string{}, Changes: []ChangeView{}, Tasks: []TaskView{}, Courses: []PlanCourse{}, Cooks: []string{}, Places: []string{},
		Hours: []PlanHours{}, Ways: []PlanWay{}, Assumed: []string{}, Notes: []string{}, Moves: []string{}, Starts: map[string]int{}, Chances: []ChanceView{}, Decide: []string{}}
	if k := f.Worked().Kitchen; k != nil {
		v.Cooks = append(v.Cooks, k.Cooks...)
	}
	return v
}

func (e *Engine) planView(f *followed, v *PlanView, p *plan.Plan, known map[plan.Step]int) {
	used := map[string]bool{}
	for _, t := range p.Tasks {
		tv := e.taskView(f, p, t)
		for _, on := range tv.On {
			used[on] = true
		}
		v.Tasks = append(v.Tasks, tv)
	}
	v.Places = placesInOrder(f, used)
	for _, c := range p.Courses {
		v.Courses = append(v.Courses, PlanCourse{Name: c.Name, At: c.At, Wall: p.Reading(c.At).String(), Late: c.At - c.Due})
	}
	for _, h := range p.Hours() {
		v.Hours = append(v.Hours, PlanHours{From: h[0], To: h[1], Wall: p.Reading(h[0]).String(), End: p.Reading(h[1]).String()})
	}
	for _, w := range p.Ways {
		c := f.Worked().Input.Cards[w.Card]
		v.Ways = append(v.Ways, PlanWay{Card: w.Card, Title: c.Title, Number: w.Way, Way: c.Ways[w.Way-1].Name, Why: w.Why,
			Taken: f.Worked().Way(c) == w.Way})
	}
	for _, a := range p.Assumed {
		v.Assumed = append(v.Assumed, fmt.Sprintf("%s: %s", p.Name(plan.Step{Card: a.Card, Batch: 1, Step: a.Step}), waitWords(a)))
	}
	v.Notes = append(v.Notes, p.Notes...)
	for _, m := range p.Moves(known) {
		text := p.Name(m.Step) + ": starts " + clockWords(p, m.Now)
		if m.New {
			text += ", new in the plan"
		} else {
			text += ", was " + clockWords(p, m.Was)
		}
		v.Moves = append(v.Moves, text)
	}
	for s, at := range p.Starts() {
		v.Starts[dinner.PlanKey(s)] = at
	}
}

func (e *Engine) taskView(f *followed, p *plan.Plan, t plan.Task) TaskView {
	v := TaskView{Key: dinner.PlanKey(t.Step), Title: f.Worked().Title(t.Card), Start: t.Start, Free: t.Free, End: t.End, Latest: t.Latest,
		From: p.Reading(t.Start).String(), To: p.Reading(t.End).String(), Cook: t.Cook, On: []string{}, Held: t.Held, Done: t.Done}
	if comp := f.Worked().Demand.ByCard[t.Card]; comp != nil && t.Step.Step <= len(comp.Card.Steps) {
		s := &comp.Card.Steps[t.Step.Step-1]
		v.Number, v.Say, v.Heat = s.Number, beginning(s), s.Heat(e.show)
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
	for _, place := range t.On {
		v.On = append(v.On, placeName(f, place))
	}
	return v
}

// beginning is how a step begins: its first sentence, cut at a word.
func beginning(s *card.Step) string {
	var b strings.Builder
	for _, r := range s.Text {
		b.WriteString(r.Text)
	}
	text := strings.Join(strings.Fields(b.String()), " ")
	if i := strings.IndexAny(text, ".;:"); i > 0 {
		text = text[:i]
	}
	const most = 72
	if len(text) <= most {
		return text
	}
	cut := strings.LastIndexByte(text[:most], ' ')
	if cut < most/2 {
		cut = strings.LastIndexByte(text[:most+1], ' ')
	}
	if cut < 0 {
		return text
	}
	return text[:cut] + " …"
}

// placeName names a place: "ring 2", "oven shelf 1", "blender".
func placeName(f *followed, at plan.Place) string {
	std, _ := document.FindEquipment(at.Equipment)
	count := 1
	if k := f.Worked().Kitchen; k != nil {
		for _, e := range k.Equipment {
			if e.Name == at.Equipment {
				count = e.Count * max(1, e.Places)
			}
		}
	}
	switch {
	case at.Equipment == "hob":
		return fmt.Sprintf("ring %d", at.Unit)
	case count == 1:
		return at.Equipment
	case std.Place != "":
		return fmt.Sprintf("%s %s %d", at.Equipment, std.Place, at.Unit)
	}
	return fmt.Sprintf("%s %d", at.Equipment, at.Unit)
}

// placesInOrder lists the places that are used, as the kitchen's file has them.
func placesInOrder(f *followed, used map[string]bool) []string {
	out := []string{}
	k := f.Worked().Kitchen
	if k == nil {
		return out
	}
	for _, e := range k.Equipment {
		for unit := 1; unit <= e.Count*max(1, e.Places); unit++ {
			if name := placeName(f, plan.Place{Equipment: e.Name, Unit: unit}); used[name] && !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

func waitWords(a plan.Assumption) string {
	switch a.Place {
	case "straight on":
		return "no keeping time given over heat: straight on"
	case "pass":
		return fmt.Sprintf("no keeping time given on the plate: %s at the pass", document.FormatSeconds(a.Minutes*60))
	}
	return fmt.Sprintf("no keeping time given: %s %s", document.FormatSeconds(a.Minutes*60), a.Place)
}

// clockWords is a time of the plan with its day, where that is not the day of
// serving.
func clockWords(p *plan.Plan, t int) string {
	w := p.Reading(t)
	text := fmt.Sprintf("%02d:%02d", w.Hour, w.Minute)
	if w.Day != p.Serve.Day || w.Month != p.Serve.Month {
		text = weekday(w) + " " + text
	}
	return text
}

func weekday(w menu.When) string {
	return time.Date(w.Year, time.Month(w.Month), w.Day, 0, 0, 0, 0, time.UTC).Weekday().String()
}

// planChances plays the plan through.
func planChances(v *PlanView, p *plan.Plan) {
	const runs = 500
	ch := p.Chances(runs, 1)
	for _, c := range ch.Courses {
		v.Chances = append(v.Chances, ChanceView{Course: c.Name, Percent: int(c.OnTime*100 + 0.5), Late: c.Late})
	}
	for _, d := range ch.Decide {
		text := fmt.Sprintf("%s: in %d %% of the runs in which a course is late", p.Name(d.Step), int(d.Share*100+0.5))
		if gain := int((d.Helped-d.Before)*100 + 0.5); gain > 0 {
			text += fmt.Sprintf("; ten minutes more for it make %d in 100 evenings good", gain)
		}
		v.Decide = append(v.Decide, text)
	}
}
