package plan

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/plan/rcpsp"
	"hobside/internal/safety"
)

// How long equipment takes to come to its temperature, or to another, where the
// kitchen does not say, in minutes. Common practice, no source.
var heatsUp = map[string]int{"oven": 15, "fryer": 10, "hot cupboard": 15, "water bath": 20}

// heating adds the time in which the equipment of a step comes to its temperature,
// before its first activity: nothing at another temperature is in it then, and the
// kitchen is open, because somebody turns it on.
func (b *builder) heating(p part, task, first int) {
	longest := 0
	var needs []rcpsp.Need
	for _, n := range b.needs(p.step, 1) {
		if n.State == 0 || b.heatsItself(p.key, b.pools[n.Resource-firstEquipment].name) {
			continue
		}
		minutes := hotIn(b.in.Kitchen, b.pools[n.Resource-firstEquipment].name)
		if minutes > 0 {
			longest = max(longest, minutes)
			needs = append(needs, rcpsp.Need{Resource: n.Resource, State: n.State})
		}
	}
	if at, ok := b.in.Known[p.key]; longest == 0 || ok && b.in.Under && at-longest < b.in.Now {
		return // by the plan that the cooks know, it is turned on already
	}
	needs = append([]rcpsp.Need{{Resource: presence, Amount: 1}}, needs...)
	b.acts = append(b.acts, act{task: task, wait: true, heats: true, dur: longest, needs: needs, lo: -forEver / 4, hi: forEver / 4})
	now := len(b.acts) - 1
	b.lags = append(b.lags,
		lag{now, first, longest, why{kind: attached, step: p.key}},
		lag{first, now, -longest, why{kind: attached, step: p.key}})
}

// heatsItself reports whether a card's own step before has the same equipment at a
// temperature: the card then says how one follows the other.
func (b *builder) heatsItself(key Step, equipment string) bool {
	c := b.demand.ByCard[key.Card].Card
	s := &c.Steps[key.Step-1]
	before := key.Step - 1 // as 1 + index
	switch {
	case s.After.Start:
		return false
	case s.After.Step > 0:
		before = s.After.Step
	}
	for before > 0 && !b.taken(c, &c.Steps[before-1]) {
		before--
	}
	return before > 0 && slices.ContainsFunc(c.Steps[before-1].Equipment, func(q card.Equipment) bool { return q.Name == equipment && q.HasTemp })
}

// hotIn returns how many minutes some equipment of a kitchen takes to heat up.
func hotIn(k *kitchen.Kitchen, name string) int {
	if e := has(k, name); e != nil && e.HotIn > 0 {
		return e.HotIn
	}
	return heatsUp[name]
}

// turnOn adds a note for each time that equipment must be turned on, or to another
// temperature, before a step: where it is not at that temperature already.
func (p *Plan) turnOn(k *kitchen.Kitchen) {
	type last struct {
		temp float64
		end  int
	}
	type unit struct {
		name string
		of   int
	}
	was := map[unit]last{}
	for _, t := range p.Tasks { // by start
		for _, at := range t.On {
			e := has(k, at.Equipment)
			if !at.HasTemp || e == nil || !e.Temp {
				continue
			}
			u := unit{at.Equipment, (at.Unit - 1) / max(1, e.Places)} // shelves of one oven are equally hot
			l, ok := was[u]
			if minutes := hotIn(k, at.Equipment); minutes > 0 && !t.Held && (!ok || l.temp != at.TempC || t.Start-l.end > anHour) {
				p.Notes = append(p.Notes, p.Clock(t.Start-minutes)+": turn the "+at.Equipment+" to "+safety.Celsius(at.TempC)+" for "+p.Name(t.Step)+" at "+p.Reading(t.Start).Clock())
			}
			was[u] = last{at.TempC, max(t.End, l.end)}
		}
	}
}
