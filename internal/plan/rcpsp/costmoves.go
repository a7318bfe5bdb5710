package rcpsp

import "slices"

// moveEach moves each activity, alone and then with those that its time lags force
// to move along, to where it is cheapest. It returns whether that gained anything.
func (c *costSearch) moveEach() bool {
	gained := false
	order := slices.Clone(c.list)
	c.rnd.shuffle(order)
	for _, i := range order {
		if c.effort.exhausted() {
			break
		}
		if len(c.m.p.Activities[i].Cost) == 0 {
			continue
		}
		from := c.start[i]
		c.remove(i)
		t, ok := c.cheapest(i)
		if !ok || c.cost(i, t) >= c.cost(i, from) {
			t = from
		}
		c.place(i, t)
		gained = gained || t != from
		if c.moveWithLags(i) {
			gained = true
		}
	}
	return gained
}

// maxDetours is how often a group that has no room where it would be cheapest is
// tried a little further on.
const maxDetours = 12

// moveWithLags tries to move i with all activities that its time lags force along:
// to the cheaper end of each linear piece of its cost, and then half, a quarter
// and so on of the way to its cheapest start. It returns whether it moved.
func (c *costSearch) moveWithLags(i int32) bool {
	curve, now := c.m.p.Activities[i].Cost, c.cost(i, c.start[i])
	moved := false
	curve.pieces(int(c.m.es[i]), int(c.ls[i]), func(first, last int) bool {
		atFirst, atLast := curve.At(first), curve.At(last)
		if min(atFirst, atLast) >= now {
			return true
		}
		t, inward := int32(first), int32(1)
		if atLast < atFirst {
			t, inward = int32(last), -1
		}
		for range maxDetours {
			fits, further := c.moveGroup(i, t, inward)
			if moved = fits; fits || further == 0 {
				break
			}
			t += further * inward
			if t < int32(first) || t > int32(last) || c.effort.exhausted() {
				break
			}
		}
		return !moved && !c.effort.exhausted()
	})
	if moved {
		return true
	}
	target := int32(curve.cheapest(int(c.m.es[i]), int(c.ls[i])))
	for step := (target - c.start[i]) / 2; step != 0 && !c.effort.exhausted(); step /= 2 {
		if fits, _ := c.moveGroup(i, c.start[i]+step, 0); fits {
			return true
		}
	}
	return false
}

// moveGroup moves i to t and every other activity just as far as the time lags
// then require. It undoes that and returns false unless all have room and it is
// cheaper. If one of them has no room there, further is how far away it has: in
// direction 1 later, in direction -1 earlier; 0 if nowhere or not asked for.
func (c *costSearch) moveGroup(i, t, direction int32) (fits bool, further int32) {
	gain, allowed := c.collectGroup(i, t)
	if !allowed || !c.effort.spend(1) || gain <= 0 || len(c.group) == 1 { // one alone has been tried
		return false, 0
	}
	if !c.effort.spend(len(c.group)) {
		return false, 0
	}
	for _, j := range c.group {
		c.remove(j)
		c.start[j], c.other[j] = c.other[j], c.start[j]
	}
	// First each by itself and then all together: an activity that is in the way
	// of another one does not say how far the whole group would have to go.
	for _, j := range c.group {
		if further, ok := c.hasRoom(j, direction); !ok {
			c.undo(0)
			return false, further
		}
	}
	for k, j := range c.group {
		if further, ok := c.hasRoom(j, direction); !ok {
			c.undo(k)
			return false, further
		}
		c.place(j, c.start[j])
	}
	return true, 0
}

// collectGroup fills group with i and all activities that have to move when i
// moves to t, and other with where each has to go. It returns what the move would
// gain, and false if one would leave its window.
func (c *costSearch) collectGroup(i, t int32) (gain int, allowed bool) {
	c.group = append(c.group[:0], i)
	c.other[i] = t
	gain = c.cost(i, c.start[i]) - c.cost(i, t)
	later := t > c.start[i]
	for _, j := range c.list {
		if j == i {
			continue
		}
		to := c.start[j]
		if d := c.m.dist[i][j]; later && d != noPath {
			to = max(to, t+d)
		}
		if d := c.m.distTo[i][j]; !later && d != noPath {
			to = min(to, t-d)
		}
		if to == c.start[j] {
			continue
		}
		c.group = append(c.group, j)
		c.other[j] = to
		gain += c.cost(j, c.start[j]) - c.cost(j, to)
		if to < c.m.es[j] || to > c.ls[j] {
			return 0, false
		}
	}
	return gain, true
}

// hasRoom reports whether the resources have room for activity j at its start. If
// not, further is how far away they have, as in moveGroup.
func (c *costSearch) hasRoom(j, direction int32) (further int32, ok bool) {
	d, dur, at := &c.m.demand[j], c.m.dur[j], c.start[j]
	free := c.f.earliest(d, at, dur)
	if free == at {
		return 0, true
	}
	if direction < 0 {
		if free = c.f.latest(d, at, dur); free > -infinity {
			return at - free, false
		}
	} else if direction > 0 && free < infinity {
		return free - at, false
	}
	return 0, false
}
