package plan

import (
	"slices"
	"sort"

	"hobside/internal/demand"
)

// network holds how many minutes must lie between two activities at least, as
// arcs; its last node is the serving time.
type network struct {
	p     *project
	out   [][]link
	queue []int
}

type link struct {
	to, min int
	keeps   string // the card whose keeping time it is, "" for none
}

func (p *project) graph() *network {
	n := len(p.acts)
	g := &network{p: p, out: make([][]link, n+1)}
	card := func(i int) string { return p.tasks[p.acts[i].task].Card }
	for _, l := range p.lags {
		k := link{to: l.to, min: l.min}
		if l.why.kind == keeps && card(l.from) != l.why.step.Card {
			k.keeps = l.why.step.Card
		}
		g.out[l.from] = append(g.out[l.from], k)
	}
	for i := range p.acts {
		a := &p.acts[i]
		if a.course > 0 {
			g.out[i] = append(g.out[i], link{to: n, min: -a.hi})
			g.out[n] = append(g.out[n], link{i, a.lo, card(i)})
		}
	}
	return g
}

// far returns how many minutes each node must lie after node from at least,
// without the keeping times of open cards. ok is false when the lags form a
// cycle.
func (g *network) far(from int, open map[string]bool) ([]int, bool) {
	dist := make([]int, len(g.out))
	waits := make([]bool, len(g.out))
	for i := range dist {
		dist[i] = -forEver
	}
	dist[from] = 0
	g.queue = append(g.queue[:0], from)
	for k := 0; k < len(g.queue); k++ {
		if k > 60*len(g.out) {
			return nil, false // the solver explains contradictory lags
		}
		i := g.queue[k]
		waits[i] = false
		for _, l := range g.out[i] {
			if l.keeps != "" && open[l.keeps] {
				continue
			}
			if t := dist[i] + l.min; t > dist[l.to] {
				if dist[l.to] = t; !waits[l.to] {
					waits[l.to] = true
					g.queue = append(g.queue, l.to)
				}
			}
		}
	}
	return dist, true
}

// part divides takers into lots: a lot takes in further takers as long as the
// component keeps from the first of them to the last. It returns nil when one
// lot serves all.
func (g *network) part(fetches []fetch, keeps int, open map[string]bool) map[demand.Taker]int {
	n := len(g.p.acts)
	dist := map[int][]int{}
	for k := range fetches {
		f := &fetches[k]
		f.latest = -forEver
		if f.course > 0 {
			f.latest = g.p.due[f.course-1]
			f.acts = nil
			if _, ok := dist[n]; !ok {
				if dist[n], ok = g.far(n, open); !ok {
					return nil
				}
			}
		}
		for _, i := range f.acts {
			if _, ok := dist[i]; !ok {
				if dist[i], ok = g.far(i, open); !ok {
					return nil
				}
			}
			f.latest = max(f.latest, -dist[i][n])
		}
	}
	order := make([]int, len(fetches))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return fetches[order[i]].latest < fetches[order[j]].latest })
	var lots [][]int
	out := map[demand.Taker]int{}
	for _, k := range order {
		at := slices.IndexFunc(lots, func(lot []int) bool {
			return !slices.ContainsFunc(lot, func(o int) bool { return g.apart(dist, &fetches[o], &fetches[k], keeps) })
		})
		if at < 0 {
			at, lots = len(lots), append(lots, nil)
		}
		lots[at] = append(lots[at], k)
		out[fetches[k].taker] = at + 1
	}
	if len(lots) < 2 {
		return nil
	}
	return out
}

// apart reports whether two takers must be further apart than the keeping time.
func (g *network) apart(dist map[int][]int, a, b *fetch, keeps int) bool {
	n := len(g.p.acts)
	nodes := func(f *fetch) (ids, at []int) {
		if f.course > 0 {
			return []int{n}, []int{g.p.due[f.course-1]}
		}
		return f.acts, make([]int, len(f.acts))
	}
	first, shift := nodes(a)
	second, shift2 := nodes(b)
	for i, x := range first {
		for j, y := range second {
			if d := dist[x][y]; d > -forEver/2 && d+shift2[j]-shift[i] > keeps {
				return true
			}
			if d := dist[y][x]; d > -forEver/2 && d+shift[i]-shift2[j] > keeps {
				return true
			}
		}
	}
	return false
}
