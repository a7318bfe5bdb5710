package monitor

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/safety"
)

// dateOf returns until when a batch may be used: the shortest of what its card, its last
// step and the rules say, and of the dates of the batches that went into it. on holds the
// cards on the path, against loops.
func (r *Reader) dateOf(c *card.Card, batch int, on []string) date {
	w := r.Dinner.Worked()
	l := r.lifeOf(c, batch)
	d := r.dateBy(w.Rules(), l)
	if d.hours || slices.Contains(on, c.ID) {
		return d
	}
	on = append(on, c.ID)
	for i, it := range c.Items {
		from := w.Demand.ByCard[it.Card]
		if it.Card == "" || from == nil || w.Input.Leave[c.ID][i+1] {
			continue
		}
		for n := range from.Batches {
			passed := r.passedOn(from.Card, n+1, it.Save, r.begunAt(c, batch), on)
			if l.made == 0 && passed.end > 0 {
				d.basis += "; no later than " + passed.use + ", the date of " + from.Card.Title + " that goes into it"
			}
			if l.made > 0 && passed.before(d) {
				d = passed
				d.basis = "the date of " + from.Card.Title + ", which went into it: " + passed.basis
			}
		}
	}
	return d
}

// passedOn returns the date that a batch, or what it sets aside, hands on to what it goes
// into. What is kept for hours, or dry, hands on none: it is used as the plan has it. What
// was frozen goes on with its count of days from when it was taken, at, in Unix
// milliseconds.
func (r *Reader) passedOn(c *card.Card, batch int, save string, at int64, on []string) date {
	w := r.Dinner.Worked()
	l := r.lifeOf(c, batch)
	d := r.dateOf(c, batch, on)
	if save != "" {
		for _, s := range c.Saves {
			if s.Slug == save {
				l.keep, l.said = coldest(s.Keeps)
				d = r.dateOfSaved(c, batch, s.Keeps)
			}
		}
	}
	switch {
	case l.made == 0 || d.hours || l.said && l.keep.Place == "room":
		return date{}
	case l.said && l.keep.Place == "frozen":
		if at == 0 {
			return date{}
		}
		l.frozen += int(max(0, at-l.made) / aDayMs)
		l.said = false // thawed, it is as if its card said nothing of keeping it cold
		return r.dateBy(w.Rules(), l)
	}
	return d
}

// dateOfSaved returns until when what a batch sets aside may be used.
func (r *Reader) dateOfSaved(c *card.Card, batch int, keeps []card.Keep) date {
	l := r.lifeOf(c, batch)
	l.ofStep = false
	l.keep, l.said = coldest(keeps)
	return r.dateBy(r.Dinner.Worked().Rules(), l)
}

// lifeOf returns what the date of a batch follows from.
func (r *Reader) lifeOf(c *card.Card, batch int) life {
	way := r.Dinner.Worked().Way(c)
	l := life{}
	l.keep, l.said, l.ofStep = shortest(c, way)
	if l.made, _ = r.made(c, way, batch); l.made == 0 {
		return l
	}
	l.cooked = l.made
	frozen, since, cold := int64(0), int64(0), false
	for i := range c.Steps {
		s := &c.Steps[i]
		if !s.In(way) {
			continue
		}
		done, _ := r.doneAt(c, batch, i)
		if since > 0 {
			frozen += max(0, r.stepBegun(c, batch, i)-since)
			since = 0
		}
		switch {
		case s.Uses("freezer"):
			since, cold = done, true
		case s.Cool.Set || s.Uses("fridge") || s.Uses("blast chiller") || s.Uses("ice bath"):
			cold = cold || l.cooked != l.made
		case s.OverHeat() && !cold && !safety.Reheats(s.Sentence()):
			l.cooked = done
		}
	}
	l.frozen = int(frozen / aDayMs)
	return l
}

// begunAt returns when the first step of a batch that is begun was begun, in Unix
// milliseconds; 0 before.
func (r *Reader) begunAt(c *card.Card, batch int) int64 {
	way, first := r.Dinner.Worked().Way(c), int64(0)
	for i := range c.Steps {
		if c.Steps[i].In(way) {
			if at := r.stepBegun(c, batch, i); at > 0 && (first == 0 || at < first) {
				first = at
			}
		}
	}
	return first
}

// stepBegun returns when step i of a batch was begun, or else done, in Unix milliseconds;
// 0 before.
func (r *Reader) stepBegun(c *card.Card, batch, i int) int64 {
	if start, ok := r.Dinner.State().Starts[dinner.StepKey(c.ID, batch, i+1)]; ok && start.At > 0 {
		return start.At
	}
	done, _ := r.doneAt(c, batch, i)
	return done
}
