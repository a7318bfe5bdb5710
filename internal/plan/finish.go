package plan

import (
	"slices"
	"sort"
)

// plan turns the starts of activities into a plan.
func (p *project) plan(in *Input, starts []int, hand int) *Plan {
	pl := &Plan{Serve: in.Serve, ClockChanges: in.ClockChanges, Assumed: p.assumed, Notes: p.notes, Margin: hand, project: p}
	p.starts = starts
	tasks := slices.Clone(p.tasks)
	for i := range tasks {
		tasks[i].Start, tasks[i].Free, tasks[i].End = forEver, -forEver, -forEver
		tasks[i].Latest = forEver
	}
	for i, at := range starts {
		a := &p.acts[i]
		if a.heats {
			continue
		}
		t := &tasks[a.task]
		if at < t.Start {
			t.Start, t.Latest = at, p.latest(i, starts)
		}
		t.End = max(t.End, at+a.dur)
		switch {
		case !a.wait:
			t.Free = at + a.dur
		case t.Free < at:
			t.Free = at
		}
	}
	for _, sp := range p.spans {
		if sp.tail > 0 {
			t := &tasks[p.acts[sp.last].task]
			t.End = max(t.End, starts[sp.last]+p.acts[sp.last].dur+sp.tail)
		}
	}
	p.overdue(tasks, starts)
	p.assignCooks(tasks)
	p.places(tasks, starts)
	// Package sort, not slices: generic sorting is compiled again for each type,
	// about 10 kB each that a phone downloads.
	sort.SliceStable(tasks, func(i, j int) bool {
		a, b := &tasks[i], &tasks[j]
		if a.Start != b.Start {
			return a.Start < b.Start
		}
		if a.Step != b.Step {
			return a.Step.less(b.Step)
		}
		return a.Load < b.Load
	})
	pl.Tasks = tasks
	for i, c := range in.Dinner.Menu.Courses {
		course := Course{Name: c.Name, Due: p.due[i], At: p.due[i], Struck: c.Struck}
		for k := range p.acts {
			if a := &p.acts[k]; a.course == i+1 {
				// A course whose time is past is served as soon as possible.
				course.At = max(course.At, p.due[i]+in.lateness(i), starts[k]+a.dur)
			}
		}
		pl.Courses = append(pl.Courses, course)
	}
	pl.tooLong(in.Kitchen)
	pl.handovers(in)
	pl.tooEarly()
	pl.turnOn(in.Kitchen)
	pl.Aims = p.judge(tasks, pl.Courses)
	return pl
}

// latest returns the latest start of activity i while everything else stays.
func (p *project) latest(i int, starts []int) int {
	a := &p.acts[i]
	if a.held {
		return starts[i]
	}
	late := a.hi
	for _, l := range p.lags {
		if l.from == i && l.why.kind != attached {
			late = min(late, starts[l.to]-l.min)
		}
	}
	// The unattended part moves with it.
	for _, l := range p.lags {
		if l.from == i && l.why.kind == attached && l.min > 0 {
			late = min(late, p.latest(l.to, starts)-l.min)
		}
	}
	return max(late, starts[i])
}

// places gives each task its ring, shelf or oven for its whole length.
func (p *project) places(tasks []Task, starts []int) {
	type claim struct{ task, from, to, amount int }
	for r, pool := range p.pools {
		if pool.state {
			continue
		}
		var claims []claim
		for i := range p.acts {
			a := &p.acts[i]
			for _, n := range a.needs {
				if n.Resource != firstEquipment+r || a.heats {
					continue
				}
				c := claim{a.task, starts[i], starts[i] + a.dur, n.Amount}
				if k := len(claims) - 1; k >= 0 && claims[k].task == a.task {
					claims[k].from, claims[k].to = min(claims[k].from, c.from), max(claims[k].to, c.to)
					continue
				}
				claims = append(claims, c)
			}
		}
		sort.SliceStable(claims, func(i, j int) bool { return claims[i].from < claims[j].from })
		free, before := make([]int, pool.places), make([]int, pool.places)
		for i := range free {
			free[i], before[i] = -forEver, -1
		}
		for _, c := range claims {
			left := c.amount
			for k := range free {
				if left > 0 && free[k] <= c.from {
					free[k] = c.to
					left--
					p.queue(tasks, before[k], c.task, pool.name)
					p.after(&before[k], c.task, true)
					at := Place{Equipment: pool.name, Unit: pool.first + k + 1}
					at.TempC, at.HasTemp = p.temperature(tasks[c.task].Step, pool.name)
					tasks[c.task].On = append(tasks[c.task].On, at)
				}
			}
		}
	}
}

// queue records that the cook of a task takes a place after another cook.
func (p *project) queue(tasks []Task, before, task int, place string) {
	first := slices.IndexFunc(p.acts, func(a act) bool { return a.task == task })
	if before < 0 || first < 0 || p.acts[first].held {
		return
	}
	if one, two := tasks[p.acts[before].task].Cook, tasks[task].Cook; one > 0 && two > 0 && one != two {
		p.queues = append(p.queues, queue{before, first, place})
	}
}

// temperature returns what a step sets some equipment to.
func (p *project) temperature(s Step, equipment string) (c float64, ok bool) {
	for _, q := range p.demand.ByCard[s.Card].Card.Steps[s.Step-1].Equipment {
		if q.Name == equipment && q.HasTemp {
			return setting(q), true
		}
	}
	return 0, false
}

// after records that a task follows the one before it on the same place or with the
// same cook.
func (p *project) after(before *int, task int, place bool) {
	first := slices.IndexFunc(p.acts, func(a act) bool { return a.task == task })
	if *before >= 0 && first >= 0 && !p.acts[first].held {
		p.arcs = append(p.arcs, arc{*before, first, 0})
	}
	last := first
	for place && last+1 < len(p.acts) && p.acts[last+1].task == task && !p.acts[last+1].heats {
		last++
	}
	*before = last
}
