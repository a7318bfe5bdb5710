package dinner

import (
	"cmp"
	"fmt"
	"strings"

	"hobside/internal/document"
	"hobside/internal/plan"
)

// A Scene is who and what is there now, for a cook who says what has changed.
type Scene struct {
	Cooks   []CookThere   `json:"cooks"`
	Things  []ThingThere  `json:"things"`
	Courses []CourseThere `json:"courses"`
	Opens   string        `json:"opens"`  // wall clock of the shift that is open, else of the next; "" where the kitchen has no hours
	Closes  string        `json:"closes"` // wall clock
	Open    bool          `json:"open"`   // the kitchen is open now
	Said    []SaidLine    `json:"said"`   // what was said, the newest first
}

// CookThere is a cook, and whether they are there.
type CookThere struct {
	Name  string `json:"name"`
	Away  bool   `json:"away"`  // now
	Words string `json:"words"` // "away until 18:00", "goes at 17:10"; "" for there all the time
}

// ThingThere is a kind of the kitchen's equipment, and how much of it is there.
type ThingThere struct {
	Name  string `json:"name"`
	Call  string `json:"call"` // as a cook calls one of it: "ring"
	Count int    `json:"count"`
	Out   int    `json:"out"`   // now
	Later bool   `json:"later"` // some are out now or later
	Words string `json:"words"` // "1 of 4 out until 18:00"
}

// CourseThere is a course as it goes out now.
type CourseThere struct {
	Course int    `json:"course"` // 1 + index
	Name   string `json:"name"`
	Wall   string `json:"wall"`
	Struck bool   `json:"struck"`
}

// SaidLine is one change that was said.
type SaidLine struct {
	Event string `json:"event"` // what an undo names
	Text  string `json:"text"`
	At    int64  `json:"at"`
	Who   string `json:"who"`
}

// Scene returns who and what is there at a moment. It fails for a dinner whose menu is
// not here yet and for a serving time that can't be read.
func (l *Live) Scene(clock PlanClock) (*Scene, error) {
	if l.worked == nil || l.worked.Menu == nil || l.worked.Kitchen == nil {
		return &Scene{}, nil
	}
	in, err := l.planInput(clock, l.state.Changes)
	if err != nil {
		return nil, err
	}
	w := &wishing{live: l, in: in, now: clock.minute(clock.Now)}
	s := &Scene{}
	for i, name := range in.Kitchen.Cooks {
		s.Cooks = append(s.Cooks, w.cookThere(i, name))
	}
	for _, e := range in.Kitchen.Equipment {
		if e.Places == 0 {
			continue // more of it than anybody counts
		}
		out, until := in.Out(e.Name, w.now)
		t := ThingThere{Name: e.Name, Call: thing(e.Name, 1), Count: e.Count, Out: out, Later: in.OutFrom(e.Name, w.now)}
		if out > 0 {
			t.Words = fmt.Sprintf("%d of %d out%s", out, e.Count, w.untilText(until))
		} else if t.Later {
			t.Words = "out later"
		}
		s.Things = append(s.Things, t)
	}
	for i, c := range in.Dinner.Menu.Courses {
		s.Courses = append(s.Courses, CourseThere{Course: i + 1, Name: cmp.Or(c.Name, fmt.Sprintf("course %d", i+1)), Wall: in.Reading(c.After).String(), Struck: c.Struck})
	}
	if shift, ok := w.shift(); ok {
		s.Opens, s.Closes, s.Open = in.Reading(shift[0]).String(), in.Reading(shift[1]).String(), shift[0] <= w.now && w.now < shift[1]
	}
	for i := len(l.state.Changes) - 1; i >= 0; i-- {
		c := l.state.Changes[i]
		s.Said = append(s.Said, SaidLine{Event: c.Event, Text: w.said(c.Do), At: c.At, Who: c.Who})
	}
	return s, nil
}

// untilText writes an end, "" for none.
func (w *wishing) untilText(t int) string {
	if t == plan.Never {
		return ""
	}
	return " until " + w.clock(t)
}

// cookThere returns when a cook is there.
func (w *wishing) cookThere(i int, name string) CookThere {
	c := CookThere{Name: name}
	for _, t := range w.in.Away(i) {
		switch {
		case t[1] <= w.now:
		case t[0] <= w.now:
			c.Away, c.Words = true, "away"+w.untilText(t[1])
		case c.Words == "":
			c.Words = "goes at " + w.clock(t[0])
			if t[1] < plan.Never {
				c.Words += ", back at " + w.clock(t[1])
			}
		}
	}
	return c
}

// said writes what a change says.
func (w *wishing) said(do []plan.Deed) string {
	var all []string
	for _, d := range do {
		text := w.deed(d)
		for i, t := range d.Times {
			if i > 0 {
				text += " and"
			}
			text += w.span(t)
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ")
}

// deed writes one thing that a change says, without its times.
func (w *wishing) deed(d plan.Deed) string {
	course := fmt.Sprintf("course %d", d.Course)
	if all := w.in.Dinner.Menu.Courses; d.Course >= 1 && d.Course <= len(all) {
		course = cmp.Or(all[d.Course-1].Name, course)
	}
	switch d.Do {
	case plan.DoAway:
		return d.Cook + " away"
	case plan.DoThere:
		return d.Cook + " there"
	case plan.DoCook:
		return cmp.Or(d.Cook, "one more cook") + " helps"
	case plan.DoOut:
		if d.Count == 0 {
			return thing(d.Equipment, 1) + " there again"
		}
		return fmt.Sprintf("%d %s out", d.Count, thing(d.Equipment, d.Count))
	case plan.DoEquipment:
		return fmt.Sprintf("%d more %s", d.Count, thing(d.Equipment, d.Count))
	case plan.DoOpen:
		return "kitchen open"
	case plan.DoClose:
		return "kitchen closed"
	case plan.DoCourse:
		return course + " at " + w.in.Reading(d.Minutes).Clock()
	case plan.DoStrike:
		if d.Count == 0 {
			return course + " served after all"
		}
		return course + " struck"
	}
	return fmt.Sprintf("%s, step %d, may wait %s", w.live.worked.Title(d.Card), d.Step, document.FormatSeconds(d.Minutes*60))
}

// span writes a time: " 17:00–18:00", " from 17:00".
func (w *wishing) span(t plan.Span) string {
	day, ok := document.ParseDate(t.Date)
	if !ok {
		return ""
	}
	from, name := day.Add(t.From), ""
	if day.DaysSince(w.in.Serve) != 0 {
		name = " " + from.Weekday().String()
	}
	if t.To == 0 {
		return name + " from " + from.Clock()
	}
	return name + " " + from.Clock() + "–" + day.Add(t.To).Clock()
}
