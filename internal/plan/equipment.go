package plan

import (
	"slices"
	"sort"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/menu"
	"hobside/internal/plan/rcpsp"
	"hobside/internal/quantity"
)

// The first two resources are people: the cooks, and
// that somebody is there at all, for what may not be left alone.
const (
	cooksResource = iota
	presence
	firstEquipment
)

// crowd is more than anything needs of a resource that is only there or not.
const crowd = 10_000

// pool is one resource made of equipment: all rings of the hob, all fryers at
// one temperature, one oven of two.
type pool struct {
	name   string
	unit   int // 1 + which of several, 0 when all are in the pool
	places int
	first  int // places of the units before this one
}

// has finds a kind of equipment in the kitchen.
func has(k *menu.Kitchen, name string) *menu.Equipment {
	for i := range k.Equipment {
		if k.Equipment[i].Name == name {
			return &k.Equipment[i]
		}
	}
	return nil
}

// heat says whether equipment may not be left alone.
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

// counted says whether places of it can run out.
func counted(e *menu.Equipment) bool { return e != nil && e.Places > 0 }

// capacity is how many places of a kind of equipment there are in all.
func capacity(e *menu.Equipment) int { return min(e.Count*e.Places, rcpsp.MaxCapacity) }

// needs are what a step takes up while it runs, people aside: as resources, and
// as the places a cook reads.
func (b *builder) needs(s *card.Step, times int) []rcpsp.Need {
	var out []rcpsp.Need
	for _, q := range s.Equipment {
		e := has(b.in.Kitchen, q.Name)
		if !counted(e) {
			continue
		}
		n := rcpsp.Need{Resource: b.resource(e, q), Amount: q.Count * times}
		if e.Temp && q.HasTemp {
			n.State = state(q.TempC)
		}
		if k := slices.IndexFunc(out, func(o rcpsp.Need) bool { return o.Resource == n.Resource }); k >= 0 {
			out[k].Amount += n.Amount
			continue
		}
		out = append(out, n)
	}
	return out
}

// state numbers a temperature: one an oven is set to, to the degree. It is
// never zero, which stands for "at any".
func state(c float64) int { return int(c+1000.5) + 1 }

// resource is the pool that a step's use of some equipment draws on.
func (b *builder) resource(e *menu.Equipment, q card.Equipment) int {
	unit := 0
	if units := b.units[e.Name]; units != nil && q.HasTemp {
		unit = units[q.TempC]
	} else if units != nil {
		unit = 1
	}
	for i, p := range b.pools {
		if p.name == e.Name && p.unit == unit {
			return firstEquipment + i
		}
	}
	p := pool{name: e.Name, unit: unit, places: capacity(e)}
	if unit > 0 {
		p.places, p.first = e.Places, (unit-1)*e.Places
	}
	b.pools = append(b.pools, p)
	return firstEquipment + len(b.pools) - 1
}

// assign gives each temperature its own oven (or fryer) where there are several
// and more than one temperature is wanted: the busiest temperature first, to
// the unit with the least to do. With one temperature they are one pool.
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
							busy[q.TempC] += (hands.High + wait.High) * q.Count
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

// fitted is a step with the load that this kitchen can take at once: the card's,
// or less where the kitchen's own fryer or blender takes less. A step that says
// nothing of loads has none: its times are for all of it.
func (b *builder) fitted(s *card.Step) *card.Step {
	if s.Load.Unit == nil {
		return s
	}
	for _, q := range s.Equipment {
		e := has(b.in.Kitchen, q.Name)
		if e == nil || e.Load.Unit == nil {
			continue
		}
		if room, ok := quantity.Convert(e.Load.Need(), e.Load.Unit, s.Load.Unit); ok && room.Cmp(s.Load.Need()) < 0 {
			fit := *s
			fit.Load = e.Load
			s = &fit
		}
	}
	return s
}
