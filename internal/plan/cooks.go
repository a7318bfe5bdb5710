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
			if t.Cook != cook+1 || t.Held {
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
	cook  int   // who does the task
}

// A cookState is what a cook does at some moment.
type cookState struct{ free, since, day, card int }

// assignCooks gives each task that needs somebody a cook, so that batches stay with
// their cook, cooks change cards seldom, and nobody works long without a break. The
// answer depends on the starts alone: a plan that is made again gives everybody the
// same work.
func (p *project) assignCooks(tasks []Task) {
	starts := make([]int, len(tasks))
	for i := range tasks {
		starts[i] = tasks[i].Start
	}
	order := slices.DeleteFunc(inOrder(starts), func(i int) bool { return tasks[i].Free <= tasks[i].Start })
	cards, batches := map[string]int{}, map[Step]int{}
	first := sharing{cooks: make([]cookState, p.cooks)}
	for k := range first.cooks {
		first.cooks[k] = cookState{free: -forEver, day: math.MinInt32, card: -1}
	}
	for _, i := range order {
		key := tasks[i].Step
		key.Step = 0
		number(batches, key)
	}
	first.last = make([]int, len(batches))
	days := make([]int, len(batches))
	all := [][]sharing{{first}}
	for _, i := range order {
		t := &tasks[i]
		key := t.Step
		key.Step = 0
		batch, day := batches[key], p.day(t.Start)
		var next []sharing
		for from := range all[len(all)-1] {
			next = p.share(next, &all[len(all)-1][from], from, t, number(cards, t.Card), batch, day, days[batch] == day)
		}
		sort.SliceStable(next, func(a, b int) bool { return next[a].cost < next[b].cost })
		next = next[:min(len(next), mostRotas)]
		all = append(all, next)
		days[batch] = day
	}
	at := 0
	for k := len(order) - 1; k >= 0; k-- {
		s := &all[k+1][at]
		tasks[order[k]].Cook = s.cook + 1
		at = s.back
	}
	busy := make([]int, p.cooks)
	for i := range busy {
		busy[i] = -1
	}
	for _, i := range order {
		p.after(&busy[tasks[i].Cook-1], i, false)
	}
}

// share adds the sharings in which somebody does a task after those of s.
func (p *project) share(out []sharing, s *sharing, from int, t *Task, card, batch, day int, sameDay bool) []sharing {
	free := slices.ContainsFunc(s.cooks, func(c cookState) bool { return c.free <= t.Start })
	for k, c := range s.cooks {
		if free && c.free > t.Start || !free && k > 0 { // started steps may overlap
			continue
		}
		if slices.Contains(s.cooks[:k], c) {
			continue // no different from a cook before
		}
		cost := s.cost
		if c.day == day && c.card != card {
			cost += perChange
		}
		if was := s.last[batch]; was > 0 && was != k+1 && sameDay {
			cost += perHandover
		}
		if t.Start-c.free >= p.pauses.long {
			c.since = t.Start
		}
		cost += perStretch * (max(0, t.Free-c.since-p.pauses.per) - max(0, c.free-c.since-p.pauses.per))
		c.free, c.day, c.card = t.Free, day, card
		next := sharing{cost: cost, cooks: slices.Clone(s.cooks), last: slices.Clone(s.last), back: from, cook: k}
		next.cooks[k], next.last[batch] = c, k+1
		out = append(out, next)
	}
	return out
}
