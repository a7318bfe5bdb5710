package plan

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
)

// serve ties a card that goes to guests to the time of its course.
func (b *builder) serve(comp *demand.Component) {
	c := comp.Card
	for _, u := range comp.Uses {
		if u.Course == 0 {
			continue
		}
		at := b.due[u.Course-1]
		for _, i := range b.lasts(c) {
			most, place, assumed := plated, "pass", true
			if m, where, ok := longest(c.Steps[i].Keep); ok {
				most, place, assumed = m, where, false
			} else if m, where, ok := longest(c.Keeps); ok {
				most, place, assumed = m, where, false
			}
			if assumed {
				b.assume(c.ID, i, most, place)
			}
			for m := range comp.Batches {
				sp, ok := b.spans[Step{c.ID, m + 1, i + 1}]
				if ok {
					b.keepsFor(c.ID, most+sp.free)
				}
				if u.Lot != comp.Batches[m].Lot {
					continue
				}
				if !ok {
					continue
				}
				b.handings = append(b.handings, handing{of: Step{c.ID, m + 1, i + 1}, made: true, course: u.Course})
				if b.acts[sp.last].held {
					continue
				}
				if most+sp.free < 0 {
					b.tooOld(Step{c.ID, m + 1, i + 1}, hold{most, place, assumed}, -sp.free)
				}
				a := &b.acts[sp.last]
				end := at + b.in.lateness(u.Course-1) - a.dur - sp.tail
				if end < a.hi {
					a.hi, a.course, a.usual = end, u.Course, assumed
				}
				a.lo = max(a.lo, min(end, end-most-sp.free))
				if head := &b.acts[sp.head]; sp.head != sp.last {
					head.lo = max(head.lo, at+b.in.lateness(u.Course-1)-head.dur-most)
				}
			}
		}
	}
}

// uses makes the steps that use a component or a by-product wait for the steps that
// make it.
func (b *builder) uses(comp *demand.Component) {
	c := comp.Card
	for i, it := range c.Items {
		from := b.demand.ByCard[it.Card]
		if it.Card == "" || from == nil || b.in.Dinner.Leave[c.ID][i+1] {
			continue
		}
		b.fetched[taking{c.ID, i + 1}] = b.naming(c, i+1)
		for _, at := range b.naming(c, i+1) {
			for batch := range comp.Batches {
				next := Step{c.ID, batch + 1, at + 1}
				if it.Save != "" {
					b.takeSaved(from, it.Save, next)
				} else {
					b.takeMade(from, next, lotOf(from, c.ID, comp.Batches[batch].Lot, i+1))
				}
			}
		}
	}
}

// lotOf returns which lot of a component an item uses, 0 for all of them.
func lotOf(from *demand.Component, by string, of, item int) int {
	for _, u := range from.Uses {
		if u.By == by && u.Of == of && u.Item == item {
			return u.Lot
		}
	}
	return 0
}

// keepsFor records how long a card's result may wait; the shortest counts.
func (b *builder) keepsFor(id string, minutes int) {
	if was, ok := b.kept[id]; !ok || minutes < was {
		b.kept[id] = minutes
	}
}

// takeMade makes a step wait for all batches of a component, or of one lot.
func (b *builder) takeMade(from *demand.Component, next Step, lot int) {
	for _, i := range b.lasts(from.Card) {
		m, place, assumed := b.keeping(from.Card, i, true)
		if assumed {
			b.assume(from.Card.ID, i, m, place)
		}
		for batch := range from.Batches {
			of := Step{from.Card.ID, batch + 1, i + 1}
			if sp, ok := b.spans[of]; ok {
				b.keepsFor(from.Card.ID, m+sp.free)
			}
			if lot == 0 || from.Batches[batch].Lot == lot {
				b.handings = append(b.handings, handing{of: of, next: next, made: true})
				b.link(of, next, hold{m, place, assumed})
			}
		}
	}
}

// takeSaved makes a step wait for a by-product: it is there after the step that
// sets it aside, or after the last steps where none says so.
func (b *builder) takeSaved(from *demand.Component, slug string, next Step) {
	c := from.Card
	at := b.lasts(c)
	for i := range c.Steps {
		if b.taken(c, &c.Steps[i]) && slices.Contains(c.Steps[i].Saves, slug) {
			at = []int{i}
		}
	}
	for _, i := range at {
		m, place, assumed := coldKeeps, "chilled", true
		for _, s := range c.Saves {
			if s.Slug != slug {
				continue
			}
			if kept, where, ok := longest(s.Keeps); ok {
				m, place, assumed = kept, where, false
			} else {
				b.assume(c.ID, i, m, place)
			}
		}
		for batch := range from.Batches {
			of := Step{c.ID, batch + 1, i + 1}
			b.handings = append(b.handings, handing{of: of, next: next, save: slug})
			b.link(of, next, hold{m, place, assumed})
		}
	}
}

// naming returns the steps that name an item, with the way chosen; the first step
// where none does.
func (b *builder) naming(c *card.Card, item int) []int {
	var out []int
	first := -1
	for i := range c.Steps {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		if first < 0 {
			first = i
		}
		if slices.ContainsFunc(s.Text, func(r card.Run) bool { return r.Item == item }) {
			out = append(out, i)
		}
	}
	if len(out) == 0 && first >= 0 {
		out = append(out, first)
	}
	return out
}
