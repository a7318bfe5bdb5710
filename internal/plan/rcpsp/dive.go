package rcpsp

// run searches until so many dead ends and schedules are spent, or nothing
// better is left, or an end is not above bound. It may be called again to go on.
func (x *exhaust) run(bound int32) {
	pause, sinceRestart := 64, 0
	for !x.proven && !x.stuck && !x.d.over() {
		i := x.choose()
		if i < 0 {
			x.found()
			if x.end <= bound {
				x.proven = true
				return
			}
			x.proven = !x.root(x.end)
			sinceRestart = 0
			continue
		}
		x.placed++
		x.t.down()
		ok := x.t.set(x.guess(i), reason{kind: chosen}) && x.propagate()
		for !ok {
			x.d.spend()
			sinceRestart++
			if ok = x.learn(); x.proven {
				return
			}
			if x.d.over() {
				break
			}
		}
		if sinceRestart > pause {
			sinceRestart = 0
			pause += pause / 4
			x.t.up(0)
		}
	}
	x.t.up(0)
}

// learn turns the clash into a nogood, goes back, and propagates it.
func (x *exhaust) learn() bool {
	if len(x.t.levels) == 0 {
		x.proven = true
		return false
	}
	level, no := x.l.learn()
	if level < 0 {
		x.proven = true
		return false
	}
	x.t.up(level)
	facts := x.l.nogoods[no]
	if !x.t.set(facts[0], reason{kind: byNogood, a: no}) {
		for _, g := range facts[1:] {
			x.t.clash = append(x.t.clash, g.not())
		}
		return false
	}
	return x.propagate()
}

// found records the schedule in which every start is settled.
func (x *exhaust) found() {
	x.d.spend()
	x.best = x.best[:0]
	x.end = always
	for i := range int32(x.m.n) {
		x.best = append(x.best, x.t.lo(i))
		x.end = max(x.end, x.t.lo(i)+x.m.dur[i])
	}
	if x.m.plain {
		x.polish()
	}
	x.hint = append(x.hint[:0], x.best...)
}

// choose is the next activity to place; -1 if all are. At first it is the one that
// can start first; once dead ends have shown where the trouble lies, the one
// met most often in the latest of them.
func (x *exhaust) choose() int32 {
	best := int32(-1)
	byHeat := x.d.spent-x.began > 100
	var key float64
	for i := range int32(x.m.n) {
		lo, hi := x.t.lo(i), x.t.hi(i)
		if lo == hi {
			continue
		}
		k := -(float64(lo) + float64(hi)/1024)
		if byHeat {
			k = x.l.heat[i]
		}
		if best < 0 || k > key {
			best, key = i, k
		}
	}
	return best
}

// guess is what to assume of i: that it is where the best schedule has it, from
// both sides in turn, or else as early as it can be.
func (x *exhaust) guess(i int32) fact {
	lo, hi := x.t.lo(i), x.t.hi(i)
	if x.hint != nil {
		h := x.hint[i]
		if lo < h && h <= hi {
			return atLeast(i, h)
		}
		if lo <= h && h < hi {
			return atMost(i, h)
		}
	}
	return atMost(i, lo)
}
