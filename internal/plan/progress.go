package plan

import (
	"hobside/internal/card"
	"hobside/internal/plan/rcpsp"
)

// asItWas lays down a step that is begun or done: it is held where it happened.
// One that is running and should have ended ends now, for all anybody knows.
func (b *builder) asItWas(key Step, s *card.Step, pr Progress, work, rest, free int) {
	end := pr.Start + work + rest + max(0, b.in.Delays[key])
	if pr.End > pr.Start {
		end = pr.End
	}
	switch {
	case pr.Done:
		end = max(pr.Start, pr.End)
	case end < b.in.Now:
		end = b.in.Now
	}
	b.tasks = append(b.tasks, Task{Step: key, Held: true, Done: pr.Done})
	task, first := len(b.tasks)-1, len(b.acts)
	if pr.Done {
		b.acts = append(b.acts, act{task: task, wait: true, held: true, start: pr.Start, dur: end - pr.Start})
	} else {
		hands := min(end, pr.Start+work)
		switch {
		case pr.End > pr.Start: // a timer runs: the hands' part is over
			hands = pr.Start
		case rest == 0:
			hands = end
		}
		equipment := b.needs(s, 1)
		if hands > pr.Start {
			b.acts = append(b.acts, act{task: task, held: true, start: pr.Start, dur: hands - pr.Start,
				needs: append([]rcpsp.Need{{Resource: cooksResource, Amount: 1}}, equipment...)})
		}
		if end > hands || hands == pr.Start {
			b.acts = append(b.acts, act{task: task, wait: true, held: true, start: hands, dur: end - hands, needs: equipment})
		}
	}
	// Where any wait of a range will do, what is left of the range is left still.
	left := max(0, min(free, pr.Start+work+rest+free-end))
	b.spans[key] = span{first: first, last: len(b.acts) - 1, free: left}
}

// A soft limit is a keeping time that may be overrun: each minute past it counts
// heavily, and the task says by how much it is.
type soft struct{ act, at int }

// overdue says of each task by how much what it takes up is past its keeping time.
func (p *project) overdue(tasks []Task, starts []int) {
	for _, s := range p.softs {
		t := &tasks[p.acts[s.act].task]
		t.Overdue = max(t.Overdue, starts[s.act]-s.at)
	}
}

// pastHolding leaves out the lag between two steps that reality has broken or
// may break: both are begun, or the first has waited too long already. The task
// that is overdue says so; a person decides what becomes of the food.
func (b *builder) pastHolding(of, next Step, from, to span, most int) bool {
	a, z := &b.acts[from.last], &b.acts[to.first]
	if a.held && z.held {
		return true
	}
	if !a.held {
		return z.held // begun before what it needs was done: so be it
	}
	end := a.start + a.dur + from.tail
	if b.in.loose || b.tasks[a.task].Done && b.from > end+most {
		if b.in.Under { // else somebody has tried the ticks out, days before
			b.softs = append(b.softs, soft{to.first, end + most})
		}
		b.lags = append(b.lags, lag{from.last, to.first, a.dur + from.tail, why{kind: follows, step: of}})
		b.arcs = append(b.arcs, arc{from.last, to.first, from.tail})
		return true
	}
	return false
}
