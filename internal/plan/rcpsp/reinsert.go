package rcpsp

// maxGroup is the largest number of activities that reinsert moves at once.
const maxGroup = 8

// reinsert removes a few activities that run at about the same time and puts them
// back in another order, each where it is then cheapest. It keeps a result that
// costs no more, and returns whether it costs less.
func (c *costSearch) reinsert() bool {
	if len(c.list) < 2 {
		c.effort.used = c.effort.limit
		return false
	}
	c.chooseNeighbours()
	if c.effort.left() < len(c.group) {
		c.effort.used = c.effort.limit // not enough left for any further attempt
		return false
	}
	before := 0
	for _, i := range c.group {
		before += c.cost(i, c.start[i])
		c.other[i] = c.start[i]
	}
	for _, i := range c.group {
		c.remove(i)
	}
	c.rnd.shuffle(c.group)
	displaced := -1 // one that is not put where it is cheapest, so that others may be
	if c.rnd.below(2) == 0 {
		displaced = c.rnd.below(len(c.group))
	}
	after := 0
	for k, i := range c.group {
		t, ok := c.cheapest(i)
		if ok && k == displaced {
			t, ok = c.randomNear(i, t)
		}
		if ok {
			after += c.cost(i, t)
		}
		if !ok || after > before {
			c.undo(k)
			return false
		}
		c.place(i, t)
	}
	return after < before
}

// randomNear returns a random start of i not far from t, false if there is none.
func (c *costSearch) randomNear(i, t int32) (int32, bool) {
	es, ls := c.window(i)
	offset := int32(1 + c.rnd.below(2<<c.rnd.below(7)))
	if c.rnd.below(2) == 0 {
		offset = -offset
	}
	t = c.f.earliest(&c.m.demand[i], max(es, t+offset), c.m.dur[i])
	return t, t <= ls
}

// chooseNeighbours fills group with a random activity and those that run nearest
// to it in time, 2 to maxGroup in all.
func (c *costSearch) chooseNeighbours() {
	centre := c.list[c.rnd.below(len(c.list))]
	c.group = append(c.group[:0], c.list...)
	distance := func(i int32) int32 {
		return max(c.start[i]-c.start[centre]-c.m.dur[centre], c.start[centre]-c.start[i]-c.m.dur[i], 0)
	}
	c.rnd.shuffle(c.group) // so that of several at the same distance any may come first
	n := min(len(c.group), 2+c.rnd.below(maxGroup-1))
	for k := range n {
		nearest := k
		for i := k + 1; i < len(c.group); i++ {
			if distance(c.group[i]) < distance(c.group[nearest]) {
				nearest = i
			}
		}
		c.group[k], c.group[nearest] = c.group[nearest], c.group[k]
	}
	c.group = c.group[:n]
}
