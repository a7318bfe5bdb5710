package rcpsp

import "slices"

// populationSize is the number of activity lists in each of the two populations.
// It was set on the test instances as a whole.
const populationSize = 80

// mutationRate returns the probability that two neighbours in a child's list swap. A swap
// costs least where every list gives a schedule. Both rates were set on the test
// instances as a whole.
func (m *model) mutationRate() float64 {
	if m.large() {
		return 0.05
	}
	return 0.02
}

// individual is an activity list with the length of its schedule.
type individual struct {
	list activityList
	end  int32
}

// genetic is a genetic algorithm on two populations (after Debels and Vanhoucke's
// bi-population algorithm). The children of left-justified schedules are
// right-justified, and the other way round, so each new schedule is both a child
// and one pass of a forward-backward improvement.
type genetic struct {
	gen     *generator
	rnd     *Random
	rules   *priorities // nil until needed
	best    Schedule    // empty if none was found
	bestEnd int32       // infinity if none was found
	bound   int32       // no schedule ends before
	left    []individual
	right   []individual
	used    []bool // for crossover
}

func newGenetic(gen *generator, rnd *Random, bound int32) *genetic {
	return &genetic{gen: gen, rnd: rnd, bound: bound, bestEnd: infinity, used: make([]bool, gen.m.n)}
}

// done reports whether the effort is used up or the best schedule is optimal.
func (g *genetic) done() bool { return g.gen.effort.exhausted() || g.bestEnd <= g.bound }

// keep records the schedule generated last, if it is the best so far.
func (g *genetic) keep(end int32) {
	if end < g.bestEnd && g.gen.withinHorizon() {
		g.bestEnd = end
		g.best = g.best[:0]
		for _, t := range g.gen.start {
			g.best = append(g.best, int(t))
		}
	}
}

// startFrom uses a schedule that the caller knows. If it satisfies the constraints
// it is the best so far; in any case its order of starts is one list to try.
func (g *genetic) startFrom(s Schedule) {
	m := g.gen.m
	if len(s) != m.n {
		return
	}
	if Check(m.p, s) == nil {
		g.best = append(g.best, s...)
		g.bestEnd = int32(s.Makespan(m.p))
	}
	if g.done() {
		return
	}
	list := m.newActivityList(func(i int32) float64 { return float64(s[i]) })
	if end := g.justifyLeft(list); end < infinity {
		g.left = append(g.left, individual{list, end})
	}
}

// populate fills the populations from the priority rules: with each rule once, and
// then until the effort used reaches a limit.
func (g *genetic) populate(limit int) {
	if g.done() {
		return
	}
	g.rules = newPriorities(g.gen.m, g.rnd)
	chain := g.gen.m.chains()
	for k := 0; k < populationSize && !g.done() && (k < ruleCount || g.gen.effort.used < limit); k++ {
		key := g.rules.rule(k)
		if chain != nil {
			key = byChain(chain, key)
		}
		list := g.gen.m.newActivityList(key)
		if k%2 == 1 && g.bestEnd < infinity {
			g.addRightFirst(list)
		} else {
			g.addLeftFirst(list)
		}
	}
}

// addLeftFirst adds list to the left population and its right justification to
// the right one.
func (g *genetic) addLeftFirst(list activityList) {
	end := g.justifyLeft(list)
	if end >= infinity {
		return
	}
	g.left = append(g.left, individual{slices.Clone(list), end})
	if g.done() {
		return
	}
	if end := g.justifyRight(list); end < infinity {
		g.right = append(g.right, individual{list, end})
	}
}

// addRightFirst is addLeftFirst with the sides exchanged.
func (g *genetic) addRightFirst(list activityList) {
	end := g.justifyRight(list)
	if end >= infinity {
		return
	}
	g.right = append(g.right, individual{slices.Clone(list), end})
	if g.done() {
		return
	}
	if end := g.justifyLeft(list); end < infinity {
		g.left = append(g.left, individual{list, end})
	}
}

// evolve produces generations until the effort used reaches a limit.
func (g *genetic) evolve(limit int) {
	stop := func() bool { return g.done() || g.gen.effort.used >= limit }
	for !stop() && len(g.left) > 1 && len(g.right) > 1 {
		for range g.left {
			if stop() {
				return
			}
			child := g.crossover(g.left)
			if end := g.justifyRight(child); end < infinity {
				g.replace(g.right, individual{child, end})
			}
		}
		for range g.right {
			if stop() {
				return
			}
			child := g.crossover(g.right)
			if end := g.justifyLeft(child); end < infinity {
				g.replace(g.left, individual{child, end})
			}
		}
	}
}

// crossover returns a child of two individuals: the first and last part of one
// parent's list, and between them activities in the other's order (Hartmann's
// two-point crossover, which keeps precedence). A few neighbours then swap.
func (g *genetic) crossover(pop []individual) activityList {
	mother, father := g.tournament(pop), g.tournament(pop)
	n := len(mother.list)
	child := make(activityList, 0, n)
	if n < 2 {
		return append(child, mother.list...)
	}
	lo, hi := g.rnd.below(n), g.rnd.below(n)
	if lo > hi {
		lo, hi = hi, lo
	}
	clear(g.used)
	take := func(from activityList, upTo int) {
		for _, i := range from {
			if len(child) >= upTo {
				return
			}
			if !g.used[i] {
				g.used[i] = true
				child = append(child, i)
			}
		}
	}
	take(mother.list, lo)
	take(father.list, hi)
	take(mother.list, n)
	rate := g.gen.m.mutationRate()
	for k := 0; k+1 < n; k++ {
		if g.rnd.Unit() < rate && !slices.Contains(g.gen.m.follows[child[k]], child[k+1]) {
			child[k], child[k+1] = child[k+1], child[k]
		}
	}
	return child
}

// tournament returns the better of two random individuals.
func (g *genetic) tournament(pop []individual) *individual {
	x, y := &pop[g.rnd.below(len(pop))], &pop[g.rnd.below(len(pop))]
	if y.end < x.end {
		return y
	}
	return x
}

// replace puts a child in the place of the worse of two random individuals, unless
// the child is worse still or duplicates one in the population.
func (g *genetic) replace(pop []individual, child individual) {
	worst := g.rnd.below(len(pop))
	if other := g.rnd.below(len(pop)); pop[other].end > pop[worst].end {
		worst = other
	}
	if child.end > pop[worst].end {
		return
	}
	for k := range pop {
		if pop[k].end == child.end && slices.Equal(pop[k].list, child.list) {
			return
		}
	}
	pop[worst] = child
}
