package plan

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/plan/rcpsp"
	"hobside/internal/quantity"
)

// The first two resources are people: the cooks, and the presence of anybody, for
// what must not be left alone.
const (
	cooksResource = iota
	presence
	firstEquipment
)

// crowd is the capacity of presence: any number of activities share it.
const crowd = 10_000

// A pool is one resource of equipment: all rings of the hob, all fryers at one
// temperature, one of two ovens.
type pool struct {
	name   string
	unit   int // which of several, from 1; 0 when all are in the pool
	places int
	first  int  // places of the units before this one
	each   int  // places in each unit
	of     int  // how many units the kitchen has
	state  bool // no equipment: what any number of steps share in one state
}

// has returns a kind of equipment of the kitchen, nil when it has none.
func has(k *kitchen.Kitchen, name string) *kitchen.Equipment {
	for i := range k.Equipment {
		if k.Equipment[i].Name == name {
			return &k.Equipment[i]
		}
	}
	return nil
}

// heat reports whether equipment must not be left alone.
func (b *builder) heat(name string) bool {
	if e := has(b.in.Kitchen, name); e != nil {
		return e.Heat
	}
	return heats(name)
}

func heats(name string) bool {
	std, _ := document.FindEquipment(name)
	return std.Heat
}

// counted reports whether equipment has a limited number of places.
func counted(e *kitchen.Equipment) bool { return e != nil && e.Places > 0 }

// capacity returns how many places a kind of equipment has.
func capacity(e *kitchen.Equipment) int { return min(e.Count*e.Places, rcpsp.MaxCapacity) }

// needs returns the equipment that a step uses while it runs.
func (b *builder) needs(s *card.Step, times int) []rcpsp.Need {
	var out []rcpsp.Need
	for _, q := range s.Equipment {
		e := has(b.in.Kitchen, q.Name)
		if !counted(e) || shares(&q) {
			continue
		}
		n := rcpsp.Need{Resource: b.resource(e, q), Amount: q.Count * times}
		if e.Temp && q.HasTemp {
			n.State = state(setting(q))
		}
		if k := slices.IndexFunc(out, func(o rcpsp.Need) bool { return o.Resource == n.Resource }); k >= 0 {
			out[k].Amount += n.Amount
			continue
		}
		out = append(out, n)
	}
	return out
}

// shares reports whether a step takes a part of a shelf that others share: it is in a fridge
// or a freezer and does not say how many shelves. [Input.Stores] counts those by volume.
func shares(q *card.Equipment) bool {
	return (q.Name == "fridge" || q.Name == "freezer") && !q.SaysPlaces()
}

// setting returns what a step's equipment is set to, in °C. An oven's temperature that is no
// whole degree was typed in °F or as a gas mark, and is set to the nearest ten: cookery pairs
// 350 °F and gas mark 4 with 180 °C (common practice, no source), and all three share an oven.
// Other equipment, such as a water bath, is set to the degree.
func setting(q card.Equipment) float64 {
	if q.Name != "oven" || q.TempC == math.Trunc(q.TempC) {
		return q.TempC
	}
	return 10 * math.Round(q.TempC/10)
}

// state numbers a temperature, to the degree. It is never 0, which means "any".
func state(c float64) int { return int(c+1000.5) + 1 }

// resource returns the pool that a step's equipment belongs to.
func (b *builder) resource(e *kitchen.Equipment, q card.Equipment) int {
	unit := 0
	if units := b.units[e.Name]; units != nil && q.HasTemp {
		unit = units[setting(q)]
	} else if units != nil {
		unit = 1
	}
	for i, p := range b.pools {
		if p.name == e.Name && p.unit == unit {
			return firstEquipment + i
		}
	}
	p := pool{name: e.Name, unit: unit, places: capacity(e), each: e.Places, of: e.Count}
	if unit > 0 {
		p.places, p.first = e.Places, (unit-1)*e.Places
	}
	b.pools = append(b.pools, p)
	return firstEquipment + len(b.pools) - 1
}

// assign gives each temperature an oven (or fryer) of its own where there are
// several ovens and several temperatures: the busiest temperature first, to the
// least used oven. With one temperature they form one pool.
func (b *builder) assign() {
	b.units = map[string]map[float64]int{}
	for i := range b.in.Kitchen.Equipment {
		e := &b.in.Kitchen.Equipment[i]
		if !e.Temp || e.Count < 2 {
			continue
		}
		busy := map[float64]int{}
		for _, comp := range b.demand.Components {
			for k := range comp.Card.Steps {
				s := &comp.Card.Steps[k]
				if !b.taken(comp.Card, s) {
					continue
				}
				for _, q := range s.Equipment {
					if q.Name == e.Name && q.HasTemp {
						for _, m := range comp.Batches {
							hands, wait := comp.Card.Time(s, m.Factor)
							busy[setting(q)] += (hands.High + wait.High) * q.Count
						}
					}
				}
			}
		}
		if len(busy) < 2 {
			continue
		}
		temps := make([]float64, 0, len(busy))
		for t := range busy {
			temps = append(temps, t)
		}
		sort.Slice(temps, func(i, j int) bool {
			if x, y := busy[temps[i]], busy[temps[j]]; x != y {
				return x > y
			}
			return temps[i] < temps[j]
		})
		load := make([]int, e.Count)
		units := map[float64]int{}
		for _, t := range temps {
			least := 0
			for u := range load {
				if load[u] < load[least] {
					least = u
				}
			}
			load[least] += busy[t]
			units[t] = least + 1
		}
		b.units[e.Name] = units
	}
}

// fitted returns a step with the load that the kitchen can take at once: the
// card's, or less where the kitchen's fryer or blender takes less. A step without a
// load has times for all of it.
func (b *builder) fitted(s *card.Step) *card.Step {
	for _, q := range s.Equipment {
		e := has(b.in.Kitchen, q.Name)
		if e == nil || e.Load.Unit == nil || s.Load.Unit == nil && q.Full.IsZero() {
			continue
		}
		takes := q.Filled(e.Load)
		room, ok := quantity.Convert(takes.Need(), takes.Unit, s.Load.Unit)
		if s.Load.Unit == nil || ok && room.Cmp(s.Load.Need()) < 0 {
			fit := *s
			fit.Load = takes
			s = &fit
		}
	}
	return s
}

// ringed returns a step with a ring for each of its pots and pans.
func (b *builder) ringed(comp *demand.Component, key Step, s *card.Step) *card.Step {
	at := slices.IndexFunc(s.Equipment, func(q card.Equipment) bool { return q.Name == onePan })
	if at < 0 || s.Vessel.Name == "" {
		return s
	}
	pots := comp.Card.Vessels(key.Step-1, comp.Batches[key.Batch-1].Factor)
	if e := has(b.in.Kitchen, onePan); counted(e) {
		pots = min(pots, capacity(e))
	}
	if pots <= s.Equipment[at].Count {
		return s
	}
	more := *s
	more.Equipment = slices.Clone(s.Equipment)
	more.Equipment[at].Count = pots
	return &more
}

// turns returns in how many turns the pots and pans of a step stand on the hob: one where it has
// a ring for each. More than one it notes.
func (b *builder) turns(comp *demand.Component, key Step, s *card.Step) int {
	e := has(b.in.Kitchen, onePan)
	if s.Vessel.Name == "" || !counted(e) || !slices.ContainsFunc(s.Equipment, func(q card.Equipment) bool { return q.Name == onePan }) {
		return 1
	}
	pots, rings := comp.Card.Vessels(key.Step-1, comp.Batches[key.Batch-1].Factor), capacity(e)
	n := max(1, (pots+rings-1)/rings)
	if n > 1 {
		b.say(fmt.Sprintf("%s takes %s, and the hob has %s: it is done in %d turns", b.name(key), plural(pots, s.Vessel.Name), plural(rings, "ring"), n))
	}
	return n
}
