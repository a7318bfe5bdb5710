package plan

import (
	"fmt"
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/plan/rcpsp"
	"hobside/internal/safety"
)

// How long equipment takes to come to its temperature, or to another, where the
// kitchen does not say, in minutes. Common practice, no source.
var heatsUp = map[string]int{"oven": 15, "fryer": 10, "hot cupboard": 15, "water bath": 20, "bain-marie": 20}

// heating adds the time in which the equipment of a step comes to its temperature,
// before its first activity: nothing at another temperature is in it then, and the
// kitchen is open, because somebody turns it on.
func (b *builder) heating(p part, task, first int) {
	longest, usual := 0, false
	var needs []rcpsp.Need
	for _, n := range b.needs(p.step, 1) {
		if n.State == 0 || b.heatsItself(p.key, b.pools[n.Resource-firstEquipment].name) {
			continue
		}
		minutes := hotIn(b.in.Kitchen, b.pools[n.Resource-firstEquipment].name)
		if minutes > 0 {
			if minutes > longest {
				longest, usual = minutes, has(b.in.Kitchen, b.pools[n.Resource-firstEquipment].name).HotIn == 0
			}
			needs = append(needs, rcpsp.Need{Resource: n.Resource, State: n.State})
		}
	}
	if at, ok := b.in.Known[p.key]; longest == 0 || ok && b.in.Under && at-longest < b.in.Now {
		return // by the plan that the cooks know, it is turned on already
	}
	needs = append([]rcpsp.Need{{Resource: presence, Amount: 1}}, needs...)
	b.acts = append(b.acts, act{task: task, wait: true, heats: true, usual: usual, dur: longest, needs: needs, lo: -forEver / 4, hi: forEver / 4})
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

// A Heating is when equipment is turned on for a step, or to another temperature.
type Heating struct {
	For   Step
	At    int // when it is turned on
	By    int // when the step starts
	Heats []Place
}

// turnOn sets the heatings of the plan: before each step whose equipment is not at the
// step's temperature already.
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
		h := Heating{For: t.Step, At: t.Start, By: t.Start}
		for _, at := range t.On {
			e := has(k, at.Equipment)
			if !at.HasTemp || e == nil || !e.Temp {
				continue
			}
			u := unit{at.Equipment, (at.Unit - 1) / max(1, e.Places)} // shelves of one oven are equally hot
			l, ok := was[u]
			if !ok {
				l.end = -forEver
			}
			if minutes := hotIn(k, at.Equipment); minutes > 0 && !t.Held && (l.temp != at.TempC || t.Start-l.end > anHour) {
				// What is in it needs the other temperature until its end.
				h.At = min(h.At, max(t.Start-minutes, min(l.end, t.Start)))
				h.Heats = append(h.Heats, Place{Equipment: at.Equipment, Unit: u.of + 1, TempC: at.TempC, HasTemp: true})
			}
			was[u] = last{at.TempC, max(t.End, l.end)}
		}
		if len(h.Heats) > 0 {
			h.At = p.opening(h.At, h.By)
			p.Heatings = append(p.Heatings, h)
		}
	}
	slices.SortStableFunc(p.Heatings, func(a, b Heating) int { return a.At - b.At })
}

// opening returns a time, or the opening of the shift of a later time where it is before
// that: nobody turns anything on while the kitchen is closed.
func (p *Plan) opening(at, later int) int {
	for _, h := range p.Hours() {
		if h[0] <= later {
			at = max(at, min(h[0], later))
		}
	}
	return at
}

// HeatingText says what is turned on and for which step: "turn the oven to 240 °C for
// Bread, step 5 at 11:55". Which of several it is, it says by its number.
func (in *Input) HeatingText(p *Plan, h Heating) string {
	var things []string
	for _, at := range h.Heats {
		name := "the " + at.Equipment
		if e := has(in.Kitchen, at.Equipment); e != nil && e.Count > 1 {
			name = fmt.Sprintf("%s %d", at.Equipment, at.Unit)
		}
		things = append(things, name+" to "+safety.Celsius(at.TempC))
	}
	return "turn " + strings.Join(things, " and ") + " for " + p.Name(h.For) + " at " + p.Reading(h.By).Clock()
}
