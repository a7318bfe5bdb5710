package plan

import (
	"slices"

	"hobside/internal/kitchen"
)

// A lack is equipment that is not there for a time.
type lack struct {
	name     string
	count    int
	borrowed bool // it is the kitchen's only outside that time
	shift
}

// lacking returns the input with some of the kitchen's equipment out at some times;
// without times always.
func (in Input) lacking(d Deed) Input {
	if has(in.Kitchen, d.Equipment) == nil {
		return in
	}
	times := in.shifts(d.Times)
	if len(d.Times) == 0 {
		times = []shift{always}
	}
	for _, t := range times {
		var left []lack
		for _, l := range in.lacks {
			if l.name != d.Equipment || l.borrowed {
				left = append(left, l)
				continue
			}
			for _, rest := range without([]shift{l.shift}, t) {
				left = append(left, lack{name: l.name, count: l.count, shift: rest})
			}
		}
		in.lacks = left
		if d.Count = min(d.Count, mostOf); d.Count > 0 {
			in.lacks = append(in.lacks, lack{name: d.Equipment, count: d.Count, shift: t})
		}
	}
	return in
}

// mostOf is how much of some equipment a plan counts.
const mostOf = 1000

// more returns the input with more of some equipment, always or at some times.
func (in Input) more(d Deed) Input {
	k := *in.Kitchen
	d.Count = min(max(0, d.Count), mostOf)
	k.Equipment = slices.Clone(k.Equipment)
	if i := slices.IndexFunc(k.Equipment, func(e kitchen.Equipment) bool { return e.Name == d.Equipment }); i >= 0 {
		k.Equipment[i].Count = min(k.Equipment[i].Count+d.Count, mostOf)
	} else {
		k.Equipment = append(k.Equipment, in.usual(d.Equipment, d.Count))
	}
	in.Kitchen = &k
	if len(d.Times) == 0 {
		return in
	}
	rest := []shift{always}
	for _, t := range in.shifts(d.Times) {
		rest = without(rest, t)
	}
	in.lacks = slices.Clone(in.lacks)
	for _, t := range rest {
		in.lacks = append(in.lacks, lack{name: d.Equipment, count: d.Count, borrowed: true, shift: t})
	}
	return in
}

// settled returns the input in which equipment that is out from now on for good is no
// longer the kitchen's.
func (in Input) settled() Input {
	from := -forEver
	if in.Under {
		from = in.Now
	}
	var left []lack
	k := *in.Kitchen
	k.Equipment = slices.Clone(k.Equipment)
	for _, l := range in.lacks {
		i := slices.IndexFunc(k.Equipment, func(e kitchen.Equipment) bool { return e.Name == l.name })
		if l.from > from || l.to < forEver || i < 0 {
			left = append(left, l)
			continue
		}
		k.Equipment[i].Count -= min(l.count, k.Equipment[i].Count)
		if k.Equipment[i].Count == 0 {
			k.Equipment = slices.Delete(k.Equipment, i, i+1)
		}
	}
	in.lacks, in.Kitchen = left, &k
	return in
}

// places returns how many places of a pool there are in the minute from t on.
func (p *project) placesAt(pool *pool, t int) int {
	n := pool.places
	for _, l := range p.lacks {
		if l.name != pool.name || t < l.from || t >= l.to {
			continue
		}
		switch {
		case pool.unit == 0:
			n -= l.count * pool.each
		case pool.unit > pool.of-l.count:
			n = 0
		}
	}
	return max(0, n)
}
