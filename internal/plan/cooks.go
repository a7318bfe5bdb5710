package plan

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// pauses say how long a cook may work without a pause: so many minutes off after
// so many minutes of work at most.
type pauses struct{ long, per int }

// usualPauses are those of a kitchen that gives none. Common practice, no source.
var usualPauses = pauses{long: 15, per: 150}

// pausesOf returns the breaks of a kitchen's cooks, the usual ones where it gives
// none.
func pausesOf(k *kitchen.Kitchen) pauses {
	if k.Breaks.Per == 0 {
		return usualPauses
	}
	return pauses{long: max(1, k.Breaks.Minutes), per: k.Breaks.Per}
}

// tooLong adds a note for each stretch of a cook's work that has no break and is
// longer than the kitchen's breaks allow.
func (p *Plan) tooLong(k *kitchen.Kitchen) {
	rule := p.project.pauses
	given := "the kitchen's breaks are "
	if k.Breaks.Per == 0 {
		given = "the kitchen gives no breaks, assumed are "
	}
	for cook, name := range k.Cooks {
		from, to := 0, -forEver
		tell := func() {
			if to-from > rule.per {
				p.Notes = append(p.Notes, fmt.Sprintf("%s works from %s to %s without a break; %s%s per %s", name, p.Clock(from), p.Reading(to).Clock(), given,
					document.FormatSeconds(rule.long*bySeconds), document.FormatSeconds(rule.per*bySeconds)))
			}
		}
		for _, t := range p.Tasks { // by start
			if !t.By(cook+1) || t.Held {
				continue
			}
			if t.Start-to >= rule.long {
				tell()
				from = t.Start
			}
			to = max(to, t.Free)
		}
		tell()
	}
}

// inOrder returns the indices of starts in their order.
func inOrder(starts []int) []int {
	order := make([]int, len(starts))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return starts[order[i]] < starts[order[j]] })
	return order
}

// mostRotas is how many ways of sharing out the work are followed at one time.
const mostRotas = 32

// A sharing is who does what, up to some task.
type sharing struct {
	cost  int
	cooks []cookState
	last  []int // by batch: 1 + the cook of its last step, 0 for none
	back  int   // the sharing that it goes on from, by task
	cook  int   // who does the task, −1 for nobody
}

// A cookState is what a cook does at some moment.
type cookState struct{ free, since, day, card int }

// A place at a task: its lead's, or that of a cook who shares the work.
type seat struct {
	task int
	more bool // not the lead's
}

// seats returns the places at the tasks that need somebody, by start.
func (p *project) seats(tasks []Task) []seat {
	starts := make([]int, len(tasks))
	for i := range tasks {
		starts[i] = tasks[i].Start
	}
	people := make([]int, len(tasks))
	for i := range p.acts {
		people[p.acts[i].task] = max(people[p.acts[i].task], p.acts[i].people())
	}
	var out []seat
	for _, i := range inOrder(starts) {
		if tasks[i].Free > tasks[i].Start {
			for k := range max(1, people[i]) {
				out = append(out, seat{i, k > 0})
			}
		}
	}
	return out
}

// assignCooks gives each task that needs somebody its cooks, so that batches stay with
// their cook, cooks change cards seldom, and nobody works long without a break. The
// answer depends on the starts alone: a plan that is made again gives everybody the
// same work.
func (p *project) assignCooks(tasks []Task) {
	order := p.seats(tasks)
	cards, batches := map[string]int{}, map[Step]int{}
	first := sharing{cooks: make([]cookState, p.cooks)}
	for k := range first.cooks {
		first.cooks[k] = cookState{free: -forEver, day: math.MinInt32, card: -1}
	}
	for _, s := range order {
		key := tasks[s.task].Step
		key.Step = 0
		number(batches, key)
	}
	first.last = make([]int, len(batches))
	days := make([]int, len(batches))
	all := [][]sharing{{first}}
	for _, s := range order {
		t := &tasks[s.task]
		key := t.Step
		key.Step = 0
		batch, day := batches[key], p.day(t.Start)
		next := []sharing{}
		for from := range all[len(all)-1] {
			next = p.share(next, &all[len(all)-1][from], from, t, s.more, number(cards, t.Card), batch, day, days[batch] == day)
		}
		sort.SliceStable(next, func(a, b int) bool { return next[a].cost < next[b].cost })
		next = next[:min(len(next), mostRotas)]
		all = append(all, next)
		days[batch] = day
	}
	at := 0
	for k := len(order) - 1; k >= 0; k-- {
		s := &all[k+1][at]
		t := &tasks[order[k].task]
		switch {
		case !order[k].more:
			t.Cook = s.cook + 1
		case s.cook >= 0:
			t.With = append(t.With, s.cook+1)
		}
		at = s.back
	}
	busy := make([]int, p.cooks)
	for i := range busy {
		busy[i] = -1
	}
	for _, s := range order {
		if t := &tasks[s.task]; !s.more {
			slices.Sort(t.With)
			p.after(&busy[t.Cook-1], s.task, false)
			for _, with := range t.With {
				p.after(&busy[with-1], s.task, false)
			}
		}
	}
}

// away returns for how many minutes of a task a cook, counted from 0, is not there.
func (p *project) away(cook int, t *Task) int {
	minutes := 0
	if cook < len(p.absent) {
		for _, s := range p.absent[cook] {
			minutes += max(0, min(s.to, t.Free)-max(s.from, t.Start))
		}
	}
	return minutes
}

// share adds the sharings in which somebody takes a place at a task after those of s.
// Where a begun task is shared on paper and nobody else is free, nobody does.
func (p *project) share(out []sharing, s *sharing, from int, t *Task, more bool, card, batch, day int, sameDay bool) []sharing {
	free := slices.ContainsFunc(s.cooks, func(c cookState) bool { return c.free <= t.Start })
	if more && !free {
		return append(out, sharing{cost: s.cost, cooks: s.cooks, last: s.last, back: from, cook: -1})
	}
	for k, c := range s.cooks {
		if free && c.free > t.Start || !free && k > 0 { // started steps may overlap
			continue
		}
		if slices.Contains(s.cooks[:k], c) && len(p.absent) == 0 {
			continue // no different from a cook before
		}
		cost := s.cost + perAway*p.away(k, t)
		if !more && c.day == day && c.card != card {
			cost += perChange
		}
		if was := s.last[batch]; !more && was > 0 && was != k+1 && sameDay {
			cost += perHandover
		}
		if t.Start-c.free >= p.pauses.long {
			c.since = t.Start
		}
		cost += perStretch * (max(0, t.Free-c.since-p.pauses.per) - max(0, c.free-c.since-p.pauses.per))
		if c.free = t.Free; !more { // a cook who helps goes on with the card from before
			c.day, c.card = day, card
		}
		next := sharing{cost: cost, cooks: slices.Clone(s.cooks), last: slices.Clone(s.last), back: from, cook: k}
		if next.cooks[k] = c; !more {
			next.last[batch] = k + 1
		}
		out = append(out, next)
	}
	return out
}
