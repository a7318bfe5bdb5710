package plan

import (
	"fmt"
	"slices"

	"hobside/internal/plan/rcpsp"
)

// A claim is the time for which a task uses a resource.
type claim struct {
	task, act int // the act is one of the task's
	from, to  int
	amount    int
	state     int // of an oven: its temperature; 0 for any
	conflict  bool
}

// A peak is a time at which more is wanted of a resource than there is, with every step at
// its latest.
type peak struct {
	resource int
	claims   []claim
	from, to int // when all of them overlap
	wanted   int // places, or cooks
	there    int
	states   int // at how many temperatures

	conflicts int // how many of the claims are among those most often in the way
}

// peak returns the time and resource at which most of the activities meet that are in each
// other's way. It returns nil if they meet nowhere.
func (p *project) peak(m mirrored, conflicting []int) *peak {
	starts := p.latestStarts()
	var best *peak
	for r := range m.Resources {
		if r == presence || r >= firstEquipment && p.pools[r-firstEquipment].state {
			continue // any number of steps share these
		}
		claims := p.claims(r, starts, conflicting)
		for _, c := range claims {
			if x := m.peakAt(r, claims, c.from); x != nil && (best == nil || x.above(best)) {
				best = x
			}
		}
	}
	return best
}

// claims returns the claims of all tasks to a resource, by their start.
func (p *project) claims(resource int, starts, conflicting []int) []claim {
	var all []claim
	for i := range p.acts {
		a := &p.acts[i]
		k := slices.IndexFunc(a.needs, func(n rcpsp.Need) bool { return n.Resource == resource && n.Amount > 0 })
		if k < 0 || a.dur == 0 {
			continue
		}
		c := claim{a.task, i, starts[i], starts[i] + a.dur, a.needs[k].Amount, a.needs[k].State, slices.Contains(conflicting, i)}
		if last := len(all) - 1; last >= 0 && all[last].task == c.task { // hands-on, then unattended
			before := &all[last]
			before.from, before.to = min(before.from, c.from), max(before.to, c.to)
			before.conflict = before.conflict || c.conflict
			continue
		}
		all = append(all, c)
	}
	slices.SortStableFunc(all, func(a, b claim) int { return a.from - b.from })
	return all
}

// peakAt returns the peak of a resource at minute t. It returns nil if there is enough of
// it, if the kitchen is closed, or if none of the claims is in anybody's way.
func (m mirrored) peakAt(resource int, claims []claim, t int) *peak {
	x := &peak{resource: resource, from: t, to: forEver, there: m.there(resource, t)}
	states := map[int]bool{}
	for _, c := range claims {
		if c.from > t || c.to <= t {
			continue
		}
		x.claims = append(x.claims, c)
		x.to = min(x.to, c.to)
		x.wanted += c.amount
		if c.state != 0 {
			states[c.state] = true
		}
		if c.conflict {
			x.conflicts++
		}
	}
	x.states = len(states)
	if x.there == 0 || x.conflicts == 0 || len(x.claims) < 2 || x.wanted <= x.there && x.states < 2 {
		return nil
	}
	return x
}

// above reports whether a peak says more than another one about what is in the way.
func (x *peak) above(y *peak) bool {
	if x.conflicts != y.conflicts {
		return x.conflicts > y.conflicts
	}
	return x.rounds()*y.there > y.rounds()*x.there
}

// rounds returns what is wanted, each temperature counted as all there is.
func (x *peak) rounds() int { return max(x.wanted, x.states*x.there) }

// there returns how much of a resource there is in the minute from t on.
func (m mirrored) there(resource, t int) int {
	r := m.Resources[resource]
	n := r.Cap
	for _, c := range r.Changes {
		if c.At > m.end-t-1 {
			break
		}
		n = c.Cap
	}
	return n
}

// explainPeak adds the reason that so many steps want so much of a resource at one time.
// Proven says whether the solver has shown that no other times keep every rule.
func (p *project) explainPeak(b *Blocked, x *peak, proven bool) {
	var acts []int
	for _, c := range x.claims {
		acts = append(acts, c.act)
	}
	name, list := p.short(b, x.resource, acts)
	what, has := "the "+name, fmt.Sprintf("the kitchen has %d", x.there)
	switch {
	case x.resource == cooksResource:
		what = plural(x.wanted, "cook")
	case x.states > 1:
		what += fmt.Sprintf(" at %d temperatures", x.states)
		has = "it has one at a time"
	case x.there > 1:
		what = fmt.Sprintf("%d places of the %s", x.wanted, name)
	}
	until := p.clock(x.to)
	if p.day(x.from) == p.day(x.to) {
		until = p.ax.reading(x.to).Clock()
	}
	rest := "no other times were found that keep every rule"
	if proven {
		rest = "no other times keep every rule"
	}
	b.Because = append(b.Because, fmt.Sprintf("%d things want %s at once, %s–%s: %s; %s, and %s",
		len(x.claims), what, p.clock(x.from), until, list, has, rest))
}
