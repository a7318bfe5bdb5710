package plan

import (
	"slices"

	"hobside/internal/demand"
	"hobside/internal/document"
)

// toTable makes what a plate takes, and what its own steps leave, keep until the plate
// goes out and not only until the next step: a plate's steps take time. Where they
// take longer than something keeps, that is ready just before them. The plan breaks
// this rule only where it must, and then says so.
func (b *builder) toTable(comp *demand.Component, inner map[Step][]lag) {
	c := comp.Card
	for _, u := range comp.Uses {
		if u.Course == 0 || !c.IsPlate() {
			continue
		}
		at := b.due[u.Course-1] + b.in.lateness(u.Course-1)
		last := b.lasts(c)
		for m := range comp.Batches {
			if u.Lot != comp.Batches[m].Lot {
				continue
			}
			left := b.plating(Step{c.ID, m + 1, 0}, inner)
			for i := range c.Steps {
				key := Step{c.ID, m + 1, i + 1}
				if _, ok := b.spans[key]; ok && !slices.Contains(last, i) {
					keeps, place, _ := b.keeping(c, i, false)
					b.until(key, at, keeps, left[i+1]-b.took(key), u.Course, place)
				}
			}
			for i, it := range c.Items {
				from := b.demand.ByCard[it.Card]
				if it.Card == "" || it.Save != "" || from == nil || b.in.Dinner.Leave[c.ID][i+1] {
					continue
				}
				longest := 0 // from the first step that takes it to the plate's end
				for _, s := range b.naming(c, i+1) {
					longest = max(longest, left[s+1])
				}
				lot := lotOf(from, c.ID, comp.Batches[m].Lot, i+1)
				for _, s := range b.lasts(from.Card) {
					keeps, place, _ := b.keeping(from.Card, s, true)
					for batch := range from.Batches {
						if lot == 0 || from.Batches[batch].Lot == lot {
							b.until(Step{from.Card.ID, batch + 1, s + 1}, at, keeps, longest, u.Course, place)
						}
					}
				}
			}
		}
	}
}

// inner returns, by batch, the lags by which one of its steps follows another.
func (b *builder) inner() map[Step][]lag {
	out := map[Step][]lag{}
	for _, l := range b.lags {
		from, to := b.tasks[b.acts[l.from].task].Step, b.tasks[b.acts[l.to].task].Step
		if l.why.kind == follows && from != to && from.Card == to.Card && from.Batch == to.Batch {
			key := Step{from.Card, from.Batch, 0}
			out[key] = append(out[key], l)
		}
	}
	return out
}

// plating returns, by step, how many minutes there are at least from the start of each
// step of a batch to the end of its last step.
func (b *builder) plating(of Step, inner map[Step][]lag) []int {
	c := b.demand.ByCard[of.Card].Card
	left := make([]int, len(c.Steps)+1)
	for s := len(c.Steps); s >= 1; s-- {
		of.Step = s
		if _, ok := b.spans[of]; ok {
			left[s] = b.took(of)
		}
	}
	for range c.Steps { // more rounds than any chain is long
		for _, l := range inner[Step{of.Card, of.Batch, 0}] {
			from, to := b.tasks[b.acts[l.from].task].Step, b.tasks[b.acts[l.to].task].Step
			slack := l.min - b.acts[l.from].dur // the tail, and the time in hand
			left[from.Step] = max(left[from.Step], b.took(from)+max(0, slack-b.spans[from].tail)+left[to.Step])
		}
	}
	return left
}

// A stale is a result that should not be done earlier than its keeping time before its
// course goes out.
type stale struct {
	act    int // which leaves it
	at     int // when it may be done at the earliest
	within int // minutes before its course
	keeps  int // minutes; less than within where plating takes longer
	place  string
	course int // 1 + index
}

// until asks that the result of a step is done so late that it keeps until its course
// goes out at a minute.
func (b *builder) until(of Step, at, keeps, plating, course int, place string) {
	sp, ok := b.spans[of]
	if !ok || keeps >= aDay || b.acts[sp.last].held {
		return
	}
	aged := max(0, -sp.free) // its first load waits for the last
	within := max(keeps+sp.free, plating+straightOn)
	b.stales = append(b.stales, stale{sp.last, at - within - sp.tail, within, keeps, place, course})
	if sp.head != sp.last {
		within = max(keeps, plating+straightOn+aged+straightOn)
		b.stales = append(b.stales, stale{sp.head, at - within, within, keeps, place, course})
	}
}

// tooEarly adds a note for each result that waits longer for a course than it keeps.
func (p *Plan) tooEarly() {
	q := p.project
	type wait struct {
		step   Step
		course int
	}
	worst := map[wait]int{} // 1 + index of the stale that says how long
	over := func(s stale) int { return s.at - q.starts[s.act] - q.acts[s.act].dur }
	for i, s := range q.stales {
		key := wait{q.tasks[q.acts[s.act].task].Step, s.course}
		if k := worst[key]; over(s) > 0 && (k == 0 || over(s) > over(q.stales[k-1])) {
			worst[key] = i + 1
		}
	}
	for _, t := range p.Tasks {
		for course := 1; course <= len(p.Courses); course++ {
			key := wait{t.Step, course}
			k := worst[key]
			if k == 0 {
				continue
			}
			delete(worst, key)
			s := q.stales[k-1]
			p.Notes = append(p.Notes, p.Name(t.Step)+" waits "+document.FormatSeconds((s.within+over(s))*bySeconds)+" until "+q.courseName(course)+
				" goes out, and keeps "+waits(s.keeps, s.place))
		}
	}
}
