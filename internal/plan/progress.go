package plan

import (
	"hobside/internal/card"
	"hobside/internal/plan/rcpsp"
)

// asItWas adds a step that was started or done, fixed to when it happened. A step
// that is running and should have ended is taken to end now.
func (b *builder) asItWas(key Step, s *card.Step, pr Progress, people, work, rest, free int) {
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
		case pr.End > pr.Start: // a timer runs: the hands-on part is over
			hands = pr.Start
		case rest == 0:
			hands = end
		}
		equipment := b.needs(s, 1)
		if hands > pr.Start {
			b.acts = append(b.acts, act{task: task, held: true, start: pr.Start, dur: hands - pr.Start,
				needs: append([]rcpsp.Need{{Resource: cooksResource, Amount: people}}, equipment...)})
		}
		if end > hands || hands == pr.Start {
			b.acts = append(b.acts, act{task: task, wait: true, held: true, start: hands, dur: end - hands, needs: equipment})
		}
	}
	// What is left of a range whose length is free stays free.
	left := max(0, min(free, pr.Start+work+rest+free-end))
	b.spans[key] = span{first: first, last: len(b.acts) - 1, head: len(b.acts) - 1, free: left}
}

// A soft is a keeping time that may be exceeded: each minute costs much, and the
// task says by how much.
type soft struct{ act, at int }

// overdue sets by how much each task's ingredients exceed their keeping time.
func (p *project) overdue(tasks []Task, starts []int) {
	for _, s := range p.softs {
		t := &tasks[p.acts[s.act].task]
		t.Overdue = max(t.Overdue, starts[s.act]-s.at)
	}
}

// pastHolding handles the lag between two steps that is broken already or may be:
// both are started, or the first has waited too long. It returns true when no lag
// is to be added. The overdue task says so, and a person decides about the food.
func (b *builder) pastHolding(of, next Step, from, to span, most int) bool {
	a, z := &b.acts[from.last], &b.acts[to.first]
	if a.held && z.held {
		return true
	}
	if !a.held {
		return z.held // started before what it needs was done
	}
	end := a.start + a.dur + from.tail
	if b.in.loose || b.tasks[a.task].Done && b.from > end+most {
		b.softs = append(b.softs, soft{to.first, end + most})
		b.lags = append(b.lags, lag{from.last, to.first, a.dur + from.tail, why{kind: follows, step: of}})
		b.arcs = append(b.arcs, arc{from.last, to.first, from.tail})
		return true
	}
	return false
}
