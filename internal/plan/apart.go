package plan

import (
	"fmt"
	"maps"
	"slices"

	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// Amounts explodes a dinner in which a card is made apart, in several lots, when
// one batch would not keep from its first use to its last, such as a butter that
// keeps half an hour and is for the first course and the fifth. It returns the
// dinner with Apart set, its amounts and their problems.
//
// What is made apart depends on times alone: the ways, the cards' own waits and
// the courses' times. What is begun, what time it is and how many cooks share a step
// make no difference, so that a dinner's batch numbers stay what they are.
//
// Guess is what was made apart before a change, or nil. Any guess gives the same
// answer; a right one saves an explosion for each card that is made apart.
func Amounts(in Input, guess demand.Apart) (demand.Input, *demand.Demand, []document.Problem) {
	apart, d, problems := in.apart(guess)
	in.Dinner.Apart = apart
	if d == nil || len(in.Dinner.Made) > 0 || len(in.Dinner.Again) > 0 {
		d, problems = demand.Explode(in.Dinner)
	}
	return in.Dinner, d, problems
}

// explode works out the amounts when the caller has not given them.
func (in *Input) explode() {
	switch {
	case in.Demand != nil:
	case in.Dinner.Apart == nil:
		in.Dinner, in.Demand, _ = Amounts(*in, nil)
	default:
		in.Demand, _ = demand.Explode(in.Dinner)
	}
}

// apart returns what must be made apart, and the amounts with it while nothing
// is begun, which are nil for a dinner without a menu.
func (in Input) apart(guess demand.Apart) (demand.Apart, *demand.Demand, []document.Problem) {
	if in.Dinner.Menu == nil {
		return nil, nil, nil
	}
	if in.Kitchen == nil {
		in.Kitchen = &kitchen.Kitchen{}
	}
	in.Under, in.Progress, in.Known, in.Later, in.Delays = false, nil, nil, nil, nil
	in.Dinner.Made, in.Dinner.Again, in.Dinner.Apart, in.late = nil, nil, nil, nil
	in.crews = crews{most: 1}
	if len(guess) > 0 && in.steady(guess) {
		in.Dinner.Apart = guess
		d, problems := demand.Explode(in.Dinner)
		if build(&in, d, in.chosen(), 0).holds(guess) {
			return guess, d, problems
		}
		in.Dinner.Apart = nil
	}
	var d *demand.Demand
	var problems []document.Problem
	for range mostApart {
		d, problems = demand.Explode(in.Dinner)
		if !mayBeApart(d) || steps(d) > mostActs {
			break
		}
		p := build(&in, d, in.chosen(), 0)
		id, lots := p.parted(in.Dinner.Apart)
		if id == "" {
			return in.Dinner.Apart, d, problems
		}
		apart := demand.Apart{id: lots}
		for k, v := range in.Dinner.Apart {
			apart[k] = v
		}
		in.Dinner.Apart = apart // the cards that it uses are looked at with it
	}
	if len(in.Dinner.Apart) == mostApart {
		d, problems = demand.Explode(in.Dinner)
	}
	return in.Dinner.Apart, d, problems
}

// mostApart bounds the cards that are made apart; no real dinner has so many.
const mostApart = 20

// mayBeApart reports whether any component is taken more than once.
func mayBeApart(d *demand.Demand) bool {
	return slices.ContainsFunc(d.Components, func(c *demand.Component) bool { return len(c.Uses) > 1 })
}

// steady reports whether each card of a guess keeps equally long whether it is
// made apart or not. That differs where a step is done in loads or grows with
// the batch; then the guess can't be checked by itself.
func (in *Input) steady(guess demand.Apart) bool {
	for id := range guess {
		c := in.Dinner.Cards[id]
		if c == nil {
			return false
		}
		for i := range c.Steps {
			if s := &c.Steps[i]; s.Load.Unit != nil || s.Wait.Per.Unit != nil || s.Hands.Per.Unit != nil {
				return false
			}
		}
	}
	return true
}

// holds reports whether a guess is right: with it made apart, exactly it must be
// made apart. Cards are examined users first, and the result for a card never
// depends on the cards after it, so there is only one right guess.
func (p *project) holds(guess demand.Apart) bool {
	g := p.graph()
	open := p.allCards()
	for _, comp := range p.demand.Components {
		id := comp.Card.ID
		if !maps.Equal(p.lotsOf(g, comp, open), guess[id]) {
			return false
		}
		delete(open, id)
	}
	return true
}

// allCards returns the cards of the dinner as cards that are not examined yet:
// their keeping times are left out.
func (p *project) allCards() map[string]bool {
	open := map[string]bool{}
	for _, comp := range p.demand.Components {
		open[comp.Card.ID] = true
	}
	return open
}

// lotsOf returns which lot each taker of a component takes from, nil where one
// lot keeps for all.
func (p *project) lotsOf(g *network, comp *demand.Component, open map[string]bool) map[demand.Taker]int {
	keeps, known := p.kept[comp.Card.ID]
	if fetches := p.fetches(comp); known && keeps >= 0 && len(fetches) > 1 {
		return g.part(fetches, keeps, open)
	}
	return nil
}

// A fetch is when a taker needs a component: the activities it starts with, or
// the time of a course.
type fetch struct {
	taker  demand.Taker
	acts   []int
	course int // 1 + index, 0 for none
	latest int
}

// parted finds the first card, users before what they use, whose takers are
// further apart than it keeps, and divides its takers into lots.
func (p *project) parted(done demand.Apart) (string, map[demand.Taker]int) {
	g := p.graph()
	open := p.allCards()
	for _, comp := range p.demand.Components {
		id := comp.Card.ID
		if len(done[id]) == 0 {
			if lots := p.lotsOf(g, comp, open); len(lots) > 0 {
				return id, lots
			}
		}
		delete(open, id)
	}
	return "", nil
}

// fetches lists who takes a component, in the order of its uses.
func (p *project) fetches(comp *demand.Component) []fetch {
	var out []fetch
	for _, u := range comp.Uses {
		f := fetch{taker: u.Taker(), course: u.Course}
		by := p.demand.ByCard[u.By]
		if by != nil {
			for m := range by.Batches {
				if by.Batches[m].Lot != u.Of {
					continue
				}
				for _, s := range p.fetched[taking{u.By, u.Item}] {
					if sp, ok := p.spans[Step{u.By, m + 1, s + 1}]; ok {
						f.acts = append(f.acts, sp.first)
					}
				}
			}
		}
		if f.course > 0 || len(f.acts) > 0 {
			out = append(out, f)
		}
	}
	return out
}

// taking names an item of a card.
type taking struct {
	card string
	item int
}

// tellApart adds a note to the plan for each card that is made apart, with the
// reason.
func (b *builder) tellApart() {
	for _, comp := range b.demand.Components {
		lots := 0
		for _, m := range comp.Batches {
			lots = max(lots, m.Lot)
		}
		if lots < 2 {
			continue
		}
		times := fmt.Sprintf("%d times", lots)
		if lots == 2 {
			times = "twice"
		}
		b.note(comp.Card.Title + " is made " + times + ": it keeps " + document.FormatSeconds(b.kept[comp.Card.ID]*bySeconds))
	}
}
