package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"hobside/internal/dinner"
	"hobside/internal/document"
)

// printPlan writes the plan by day and shift, with boxes to tick.
func printPlan(w io.Writer, p *planned) error {
	v := p.view
	fmt.Fprintf(w, "%s: %d covers, %s\n", p.dinner.Title, p.dinner.Covers, p.serve.Format("Monday 2 January 2006 15:04"))
	if len(v.Blocked) > 0 {
		printBlocked(w, v)
		section(w, "Problems", problemLines(p.dinner.Problems))
		return nil
	}
	printed := 0
	for _, h := range v.Hours {
		lines := tasksWithin(v, h)
		if len(lines) == 0 {
			continue
		}
		printed += len(lines)
		fmt.Fprintf(w, "\n%s, %s–%s\n", p.at(h.From).Format("Monday 2 January"), p.at(h.From).Format("15:04"), p.at(h.To).Format("15:04"))
		t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
		heats := heatsWithin(v, h)
		for _, task := range lines {
			for len(heats) > 0 && heats[0].Start <= task.Start {
				printHeat(t, p, &heats[0])
				heats = heats[1:]
			}
			printTask(t, p, &task)
		}
		for i := range heats {
			printHeat(t, p, &heats[i])
		}
		if err := t.Flush(); err != nil {
			return err
		}
	}
	fmt.Fprintln(w)
	for i, c := range v.Courses {
		chance := ""
		if i < len(v.Chances) {
			chance = fmt.Sprintf("  on time in %d of 100 evenings", v.Chances[i].Percent)
		}
		fmt.Fprintf(w, "%s  %s%s\n", p.at(c.At).Format("15:04"), c.Name, chance)
	}
	section(w, "Overfull", v.Full)
	section(w, "Room", v.Room)
	section(w, "Steps to watch", v.Decide)
	section(w, "Two cooks at one place", v.Collide)
	if v.Slack != "" {
		section(w, "Where ten minutes more help most", []string{v.Slack})
	}
	var ways []string
	for _, way := range v.Ways {
		ways = append(ways, way.Title+": “"+way.Way+"”: "+way.Why)
	}
	section(w, "Ways", ways)
	section(w, "Assumptions", append(append([]string{}, v.Notes...), v.Assumed...))
	section(w, "Problems", problemLines(p.dinner.Problems))
	return nil
}

// printBlocked writes why there is no plan, and the changes that would give one.
func printBlocked(w io.Writer, v *dinner.Schedule) {
	section(w, "It can't be done as asked", v.Blocked)
	var changes []string
	for _, c := range v.Changes {
		changes = append(changes, c.Text+": "+c.Effect)
	}
	if len(changes) == 0 {
		changes = []string{"no single change that was tried fixes it"}
	}
	section(w, "Any one of these fixes it", changes)
}

// section writes a title and its lines; nothing when there are no lines.
func section(w io.Writer, title string, lines []string) {
	if len(lines) == 0 {
		return
	}
	fmt.Fprintf(w, "\n%s\n", title)
	for _, l := range lines {
		fmt.Fprintf(w, "  %s\n", l)
	}
}

// tasksWithin returns the tasks that start in a shift.
func tasksWithin(v *dinner.Schedule, h dinner.ShiftTime) []dinner.Task {
	var out []dinner.Task
	for _, t := range v.Tasks {
		if t.Start >= h.From && t.Start < h.To || t.Start == h.To && t.End == h.To {
			out = append(out, t)
		}
	}
	return out
}

// heatsWithin returns when equipment is turned on in a shift.
func heatsWithin(v *dinner.Schedule, h dinner.ShiftTime) []dinner.HeatTime {
	var out []dinner.HeatTime
	for _, heat := range v.Heats {
		if heat.Start >= h.From && heat.Start < h.To {
			out = append(out, heat)
		}
	}
	return out
}

func printHeat(w io.Writer, p *planned, h *dinner.HeatTime) {
	fmt.Fprintf(w, "[ ] %s\t\t%s\t\t\t\n", p.at(h.Start).Format("15:04"), h.Say)
}

func printTask(w io.Writer, p *planned, t *dinner.Task) {
	name := fmt.Sprintf("%s, step %d", t.Title, t.Number)
	if t.Load != "" {
		name += ", " + t.Load
	}
	var times []string
	if t.Free > t.Start {
		times = append(times, document.FormatSeconds((t.Free-t.Start)*60))
	}
	if t.End > t.Free {
		times = append(times, "then "+document.FormatSeconds((t.End-t.Free)*60))
	}
	fmt.Fprintf(w, "[ ] %s\t%s\t%s\t%s\t%s\t%s\n", p.at(t.Start).Format("15:04"), t.Who, name, strings.Join(times, ", "), strings.Join(t.On, ", "), t.Say)
}
