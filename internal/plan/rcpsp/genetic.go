package rcpsp

import "slices"

// individual is a list and what it came to.
type individual struct {
	list []int32
	end  int32
}

// breed is a genetic search over two populations that feed each other (after
// Debels and Vanhoucke's bi-population search, Annals of OR 149, 2007, from
// memory): the lists of left-justified schedules are crossed and decoded
// backwards into right-justified ones, and those forwards again. Every decoding
// is at once a child and one pass of a forward-backward improvement.
type breed struct {
	d       *decoder
	rnd     *chance
	best    Schedule
	bestEnd int32
	bound   int32 // no schedule ends before this
	left    []individual
	right   []individual
	used    []bool
}

func newBreed(d *decoder, rnd *chance, bound int32) *breed {
	return &breed{d: d, rnd: rnd, bound: bound, bestEnd: never, used: make([]bool, d.m.n)}
}

func (b *breed) done() bool { return b.d.over() || b.bestEnd <= b.bound }

// keep records what forward has just found.
func (b *breed) keep(end int32) {
	if end < b.bestEnd && b.d.inTime() {
		b.bestEnd = end
		b.best = b.best[:0]
		for _, t := range b.d.start {
			b.best = append(b.best, int(t))
		}
	}
}

// goLeft decodes list forwards. The list comes back in the order in which a
// backward pass should take it.
func (b *breed) goLeft(list []int32) int32 {
	end := b.d.forward(list)
	if end >= never {
		return end
	}
	b.keep(end)
	if b.d.m.plain {
		b.d.byEnd(list)
	} else {
		b.d.byStart(list)
	}
	return end
}

// goRight decodes list backwards and gives the length. The list comes back in
// the order in which a forward pass should take it.
func (b *breed) goRight(list []int32) int32 {
	end := min(b.bestEnd, b.d.m.horizon)
	if !b.d.backward(list, end) {
		return never
	}
	first := never
	for _, i := range list {
		first = min(first, b.d.start[i])
	}
	b.d.byStart(list)
	return end - first
}

// sow fills the populations from the priority rules, all of them at least once and
// no further than until schedules.
func (b *breed) sow(size, until int) {
	for k := 0; k < size && !b.done() && (k < ruleCount || b.d.spent < until); k++ {
		list := b.d.m.list(b.rule(k))
		if k%2 == 1 && b.bestEnd < never {
			if end := b.goRight(list); end < never {
				b.right = append(b.right, individual{slices.Clone(list), end})
				if b.done() {
					return
				}
				if end := b.goLeft(list); end < never {
					b.left = append(b.left, individual{list, end})
				}
			}
			continue
		}
		if end := b.goLeft(list); end < never {
			b.left = append(b.left, individual{slices.Clone(list), end})
			if b.done() {
				return
			}
			if end := b.goRight(list); end < never {
				b.right = append(b.right, individual{list, end})
			}
		}
	}
}

// run breeds until until schedules are spent.
func (b *breed) run(until int) {
	for !b.done() && b.d.spent < until && len(b.left) > 1 && len(b.right) > 1 {
		for range b.left {
			if b.done() || b.d.spent >= until {
				return
			}
			child := b.cross(b.left)
			if end := b.goRight(child); end < never {
				b.insert(b.right, individual{child, end})
			}
		}
		for range b.right {
			if b.done() || b.d.spent >= until {
				return
			}
			child := b.cross(b.right)
			if end := b.goLeft(child); end < never {
				b.insert(b.left, individual{child, end})
			}
		}
	}
}

// cross takes a stretch of one parent's list and the rest in the other's order
// (Hartmann's two-point crossover: precedence survives it), then lets a few
// neighbours swap.
func (b *breed) cross(pop []individual) []int32 {
	mother, father := b.pick(pop), b.pick(pop)
	n := len(mother.list)
	child := make([]int32, 0, n)
	if n < 2 {
		return append(child, mother.list...)
	}
	lo, hi := b.rnd.below(n), b.rnd.below(n)
	if lo > hi {
		lo, hi = hi, lo
	}
	clear(b.used)
	draw := func(from []int32, upto int) {
		for _, i := range from {
			if len(child) >= upto {
				return
			}
			if !b.used[i] {
				b.used[i] = true
				child = append(child, i)
			}
		}
	}
	draw(mother.list, lo)
	draw(father.list, hi)
	draw(mother.list, n)
	for k := 0; k+1 < n; k++ {
		if b.rnd.unit() < 0.02 && !slices.Contains(b.d.m.after[child[k]], child[k+1]) {
			child[k], child[k+1] = child[k+1], child[k]
		}
	}
	return child
}

// pick is a tournament of two.
func (b *breed) pick(pop []individual) *individual {
	x, y := &pop[b.rnd.below(len(pop))], &pop[b.rnd.below(len(pop))]
	if y.end < x.end {
		return y
	}
	return x
}

// insert puts a newcomer in the place of the worse of two, unless its like is
// there already.
func (b *breed) insert(pop []individual, in individual) {
	worst := b.rnd.below(len(pop))
	if other := b.rnd.below(len(pop)); pop[other].end > pop[worst].end {
		worst = other
	}
	if in.end > pop[worst].end {
		return
	}
	for k := range pop {
		if pop[k].end == in.end && slices.Equal(pop[k].list, in.list) {
			return
		}
	}
	pop[worst] = in
}
