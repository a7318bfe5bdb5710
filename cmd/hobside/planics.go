package main

import (
	"fmt"
	"io"
	"strings"

	ics "github.com/arran4/golang-ical"

	"hobside/internal/dinner"
)

// printPlanICS writes the plan as an iCalendar file (RFC 5545): one event for
// each hands-on step and one for each course, in UTC, so that no change of the
// clocks moves them.
func printPlanICS(w io.Writer, p *planned) error {
	cal := ics.NewCalendarFor("hobside")
	cal.SetProductId("-//hobside//plan//EN")
	cal.SetMethod(ics.MethodPublish)
	for i := range p.view.Tasks {
		if t := &p.view.Tasks[i]; t.Free > t.Start {
			taskEvent(cal, p, t)
		}
	}
	for i, c := range p.view.Courses {
		ev := cal.AddEvent(fmt.Sprintf("course-%d-%s@hobside", i+1, p.serve.UTC().Format("20060102T1504")))
		ev.SetDtStampTime(p.made)
		ev.SetStartAt(p.at(c.At).UTC())
		ev.SetEndAt(p.at(c.At).UTC())
		ev.SetSummary(c.Name + " goes out")
	}
	_, err := io.WriteString(w, cal.Serialize(ics.WithNewLine("\r\n")))
	return err
}

func taskEvent(cal *ics.Calendar, p *planned, t *dinner.Task) {
	id := strings.NewReplacer("#", "-", "/", "-", " ", "-").Replace(t.Key + " " + t.Load)
	ev := cal.AddEvent(id + "-" + p.serve.UTC().Format("20060102T1504") + "@hobside")
	ev.SetDtStampTime(p.made)
	ev.SetStartAt(p.at(t.Start).UTC())
	ev.SetEndAt(p.at(t.Free).UTC())
	summary := fmt.Sprintf("%s, step %d", t.Title, t.Number)
	if t.Load != "" {
		summary += ", " + t.Load
	}
	ev.SetSummary(summary)
	lines := []string{t.Say}
	if t.Who != "" {
		lines = append(lines, t.Who)
	}
	if t.Heat != "" {
		lines = append(lines, t.Heat)
	}
	if t.End > t.Free {
		lines = append(lines, "then waits until "+p.at(t.End).Format("Monday 15:04"))
	}
	ev.SetDescription(strings.Join(lines, "\n"))
	if len(t.On) > 0 {
		ev.SetLocation(strings.Join(t.On, ", "))
	}
}
