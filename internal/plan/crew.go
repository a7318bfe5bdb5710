package plan

import (
	"errors"
	"slices"

	"hobside/internal/card"
)

// crews say how work is shared between cooks. The zero value shares as much as the
// cards allow.
type crews struct {
	most  int             // cooks at a step at most, 0 for as many as there are
	alone map[string]bool // cards whose steps are not shared
}

// worthSharing is how long plating takes one cook at least, in minutes, before others
// come to help where the card says nothing. Common practice, no source.
const worthSharing = 4

// crew returns how many cooks share the hands-on time of a step: as many as its card
// allows, plating that is worth it by all of them where the card says nothing. One more
// must make it shorter by a minute at least.
func (b *builder) crew(key Step, s *card.Step) int {
	comp := b.demand.ByCard[key.Card]
	hands, _ := comp.Card.Time(s, comp.Batches[key.Batch-1].Factor)
	work, _ := planned(hands, true)
	most := s.Cooks
	if most == 0 && minutes(work) >= worthSharing && b.platesUp(key, s) {
		most = b.cooks
	}
	if b.in.crews.most > 0 {
		most = min(most, b.in.crews.most)
	}
	most = min(most, b.cooks)
	if most < 2 || b.in.crews.alone[key.Card] {
		return 1
	}
	people := 1
	for n := 2; n <= most; n++ {
		if minutes((work+n-1)/n) < minutes((work+people-1)/people) {
			people = n
		}
	}
	return people
}

// platesUp reports whether a step puts the plates of a course together: it is at the
// pass or the last of a plate's card, and over no heat.
func (b *builder) platesUp(key Step, s *card.Step) bool {
	c := b.demand.ByCard[key.Card].Card
	if !c.IsPlate() || !s.Serve && !slices.Contains(b.lasts(c), key.Step-1) {
		return false
	}
	return !slices.ContainsFunc(s.Equipment, func(q card.Equipment) bool { return b.heat(q.Name) })
}

// attended reports whether somebody is at a step while it waits, and notes where that
// is assumed by its words.
func (b *builder) attended(key Step, s *card.Step) bool {
	needs, assumed := s.NeedsSomebody()
	if assumed {
		b.note(b.name(key) + ": somebody is at it all the time, by its words; write “wait: " + s.Wait.String() + ", unattended” if not")
	}
	return needs
}

// people returns how many cooks an activity needs.
func (a *act) people() int {
	for _, n := range a.needs {
		if n.Resource == cooksResource {
			return n.Amount
		}
	}
	return 0
}

// shared returns the cards of which some step is shared, in the order of the menu.
func (p *project) shared() []string {
	var out []string
	for i := range p.acts {
		if id := p.tasks[p.acts[i].task].Card; p.acts[i].people() > 1 && !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

// mostShared is how many cards are tried one by one when not all can be shared.
const mostShared = 8

// share plans with as much work shared as fits: all that the cards allow, else by two
// cooks at most, else card by card.
func (in *Input) share(ways map[string]int, hand int) (*Plan, error) {
	in.crews = crews{}
	defer func() { in.crews = crews{} }()
	pl, why := in.solve(ways, hand)
	if pl != nil {
		return pl, nil
	}
	if b := new(Blocked); errors.As(why, &b) && (b.always || b.unshared) {
		return nil, why
	}
	all := build(in, in.Demand, ways, hand).shared()
	if len(all) == 0 {
		return nil, why
	}
	if len(in.Kitchen.Cooks) > 2 {
		in.crews.most = 2
		if pl, _ := in.solve(ways, hand); pl != nil {
			return pl, nil
		}
	}
	in.crews.alone = map[string]bool{}
	for _, id := range all {
		in.crews.alone[id] = true
	}
	pl, why = in.solve(ways, hand)
	if pl == nil {
		return nil, why
	}
	if in.Placements == 1 {
		return pl, nil // the question is only whether there is a plan
	}
	for _, id := range all[:min(mostShared, len(all))] {
		delete(in.crews.alone, id)
		if _, err := in.fitsSo(ways, hand); err != nil {
			in.crews.alone[id] = true
		}
	}
	if best, _ := in.solve(ways, hand); best != nil {
		pl = best
	}
	return pl, nil
}
