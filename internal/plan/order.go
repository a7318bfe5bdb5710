package plan

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/plan/rcpsp"
)

// clearing is how long a bench is cleared and cleaned before work that is kept apart from
// something, in minutes. Nothing with that is worked on then. Common practice, no source.
const clearing = 10

// handling returns the steps that handle something, worked out once for a dinner.
func (b *builder) handling(words string) *card.Handling {
	h := b.in.handles[words]
	if h == nil {
		h = card.Handles(words, b.in.Dinner.Menu.Foods, func(id string) *card.Card { return b.in.Dinner.Cards[id] })
		if b.in.handles == nil {
			b.in.handles = map[string]*card.Handling{}
		}
		b.in.handles[words] = h
	}
	return h
}

// orders makes steps keep the order that their cards ask for with steps of other cards.
func (b *builder) orders() {
	for _, comp := range b.demand.Components {
		for i := range comp.Card.Steps {
			for _, o := range comp.Card.Steps[i].Order {
				for _, other := range b.demand.Components {
					if other != comp && (o.With != "" || o.Names(other.Card)) {
						b.order(comp.Card, i, o, other.Card)
					}
				}
			}
		}
	}
}

// order makes the batches of one card keep an order with those of another.
func (b *builder) order(c *card.Card, step int, o card.Order, other *card.Card) {
	for i := range other.Steps {
		if o.With != "" && !b.handling(o.With).Steps(other)[i] || o.Step > 0 && other.Steps[i].Number != o.Step {
			continue
		}
		for m := range b.demand.ByCard[c.ID].Batches {
			for n := range b.demand.ByCard[other.ID].Batches {
				from, next := Step{other.ID, n + 1, i + 1}, Step{c.ID, m + 1, step + 1}
				if o.Before {
					from, next = next, from
				}
				b.done(from, next)
			}
		}
	}
}

// done makes a step begin when another is done, at any time after.
func (b *builder) done(of, next Step) {
	from, ok1 := b.spans[of]
	to, ok2 := b.spans[next]
	if !ok1 || !ok2 || b.acts[to.first].held {
		return
	}
	b.lags = append(b.lags, lag{from.last, to.first, b.acts[from.last].dur + from.tail, why{kind: ordered, step: of}})
	b.arcs = append(b.arcs, arc{from.last, to.first, from.tail})
}

// apartFrom lists, each once, what some work of the dinner is kept apart from.
func (b *builder) apartFrom() (words []string) {
	for _, comp := range b.demand.Components {
		for i := range comp.Card.Steps {
			for _, from := range comp.Card.ApartFrom(&comp.Card.Steps[i]) {
				if !slices.Contains(words, from) {
					words = append(words, from)
				}
			}
		}
	}
	return words
}

// The two states of a bench: work that is kept apart from something, and work with it.
const (
	benchClean = 1 + iota
	benchUsed
)

// bench returns, for each thing that work is kept apart from and that a step handles or
// is kept apart from, the state of the bench, and of the equipment of the step.
func (b *builder) bench(key Step, s *card.Step) (hands, waits []rcpsp.Need) {
	c := b.demand.ByCard[key.Card].Card
	for _, from := range b.apart {
		state := 0
		switch {
		case slices.Contains(c.ApartFrom(s), from):
			state = benchClean
		case b.handling(from).Steps(c)[key.Step-1]:
			state = benchUsed
		default:
			continue
		}
		hands = append(hands, b.shared("bench, kept apart from "+from, state))
		for _, q := range s.Equipment {
			if q.Name == "fridge" || q.Name == "freezer" || q.Name == onePan {
				continue // covered, or a pan of its own
			}
			waits = append(waits, b.shared(q.Name+", kept apart from "+from, state))
		}
	}
	return append(hands, waits...), waits
}

// shared returns the need of something that any number of steps share in one state.
func (b *builder) shared(name string, state int) rcpsp.Need {
	at := slices.IndexFunc(b.pools, func(p pool) bool { return p.name == name })
	if at < 0 {
		b.pools = append(b.pools, pool{name: name, places: crowd, state: true})
		at = len(b.pools) - 1
	}
	return rcpsp.Need{Resource: firstEquipment + at, State: state}
}

// clear adds the time in which the bench is cleared before the hands-on work of a step
// that is kept apart from something.
func (b *builder) clear(p part, task, first int) {
	var needs []rcpsp.Need
	for _, n := range p.bench {
		if n.State == benchClean {
			needs = append(needs, n)
		}
	}
	if at, ok := b.in.Known[p.key]; len(needs) == 0 || ok && b.in.Under && at-clearing < b.in.Now {
		return
	}
	b.acts = append(b.acts, act{task: task, wait: true, heats: true, dur: clearing, needs: needs, lo: -forEver / 4, hi: forEver / 4})
	now := len(b.acts) - 1
	b.lags = append(b.lags,
		lag{now, first, clearing, why{kind: attached, step: p.key}},
		lag{first, now, -clearing, why{kind: attached, step: p.key}})
}
