package plan

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
)

// batch adds one batch of a card: its steps and the lags between them.
func (b *builder) batch(comp *demand.Component, batch int) {
	c, m := comp.Card, comp.Batches[batch]
	if m.Factor.Sign() <= 0 && !m.Fixed {
		return // not needed any more; its number stays reserved
	}
	last := b.lasts(c)
	before := -1
	for i := range c.Steps {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		key := Step{c.ID, batch + 1, i + 1}
		b.lack(key, s)
		b.step(comp, key, s)
		switch {
		case s.After.Start:
		case s.After.Step > 0 && b.taken(c, &c.Steps[s.After.Step-1]):
			b.wait(c, key, s.After.Step-1, Step{c.ID, batch + 1, s.After.Step}, last)
		case before >= 0:
			b.wait(c, key, before, Step{c.ID, batch + 1, before + 1}, last)
		}
		before = i
	}
}

// wait makes a step follow another of its batch.
func (b *builder) wait(c *card.Card, next Step, index int, of Step, last []int) {
	m, place, assumed := b.keeping(c, index, slices.Contains(last, index))
	if stage, ok := c.StageBefore(next.Step - 1); ok && stage <= index && m > straightOn {
		m, place, assumed = straightOn, heldAtHeat, true // no night between two stages of one cooling
	}
	if assumed {
		b.assume(c.ID, index, m, place)
	}
	b.handings = append(b.handings, handing{of: of, next: next})
	b.link(of, next, hold{m, place, assumed})
}

// lasts returns the steps of a card that no other step follows, with the way
// chosen.
func (b *builder) lasts(c *card.Card) []int {
	followed := make([]bool, len(c.Steps))
	before := -1
	for i := range c.Steps {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		switch {
		case s.After.Start:
		case s.After.Step > 0 && b.taken(c, &c.Steps[s.After.Step-1]):
			followed[s.After.Step-1] = true
		case before >= 0:
			followed[before] = true
		}
		before = i
	}
	var out []int
	for i := range c.Steps {
		if b.taken(c, &c.Steps[i]) && !followed[i] {
			out = append(out, i)
		}
	}
	return out
}

// A hold is how long a result may wait, in minutes, and where. A usual one is the
// default, because no card gives one.
type hold struct {
	within int
	place  string
	usual  bool
}

// link makes next start after of is done, and before the result has waited too long.
func (b *builder) link(of, next Step, h hold) {
	from, ok1 := b.spans[of]
	to, ok2 := b.spans[next]
	if !ok1 || !ok2 {
		return
	}
	done := b.acts[from.last].dur + from.tail // after the start of from.last
	most := min(h.within+from.free, forEver/4)
	if most < 0 {
		b.tooOld(of, h, -from.free)
	}
	if b.pastHolding(of, next, from, to, most) {
		return
	}
	b.lags = append(b.lags,
		lag{from.last, to.first, done + b.inHand(of, most), why{kind: follows, step: of}},
		lag{to.first, from.last, -(done + most), why{keeps, of, most, h.place, h.usual}})
	if from.head != from.last { // its first load waits for the others
		b.lags = append(b.lags, lag{to.first, from.head, -(b.acts[from.head].dur + h.within), why{keeps, of, h.within, h.place, h.usual}})
	}
	b.arcs = append(b.arcs, arc{from.last, to.first, from.tail})
}

// inHand returns the slack that the plan leaves behind a step of uncertain length,
// so that a usual delay moves nothing: a share of how much longer it may take, at
// most a third of the time that its result may wait.
func (b *builder) inHand(of Step, most int) int {
	c := b.demand.ByCard[of.Card].Card
	s := &c.Steps[of.Step-1]
	hands, wait := c.Time(s, b.demand.ByCard[of.Card].Batches[of.Batch-1].Factor)
	likely := (hands.High + hands.High/4 - hands.Low) / b.crew(of, s)
	if b.spans[of].free <= 0 {
		likely += (wait.High - wait.Low) / 4
	}
	if _, done := b.in.Progress[of]; done {
		return 0
	}
	return min(minutes(likely)*b.hand/100, most/3)
}

func (b *builder) assume(id string, index, minutes int, place string) {
	a := Assumption{id, index + 1, minutes, place}
	if !slices.Contains(b.assumed, a) {
		b.assumed = append(b.assumed, a)
	}
}

func (b *builder) note(text string) {
	if !b.told[text] {
		b.told[text] = true
		b.notes = append(b.notes, text)
	}
}
