package rcpsp

// ReduceCost moves activities to where their Cost is less, without letting the whole
// end later than s does. It gives a schedule that costs no more than s, and the
// cost of it. s must keep the rules of p; an error says which it breaks.
//
// A budget of one schedule pays for as many placements as there are activities.
func ReduceCost(p *Problem, s Schedule, b Budget) (Schedule, int, error) {
	if err := p.Validate(); err != nil {
		return nil, 0, err
	}
	if err := Check(p, s); err != nil {
		return nil, 0, err
	}
	m, why := compile(p)
	if why != nil {
		return nil, 0, why // cannot be: s is a schedule
	}
	if m.dist == nil {
		m.distances()
		m.turn()
	}
	sm := newSmoother(m, s, b)
	for again := true; again && sm.left > 0; {
		again = sm.sweep()
	}
	for quiet := 0; sm.left > 0 && quiet < 50+4*m.free+20_000/max(1, m.free); quiet++ {
		if sm.rearrange() {
			quiet = 0
			sm.sweep()
		}
	}
	out := make(Schedule, m.n)
	for i, t := range sm.start {
		out[i] = int(t)
	}
	return out, p.Cost(out), nil
}

// Cost is the sum of the activities' costs in s.
func (p *Problem) Cost(s Schedule) int {
	sum := 0
	for i, t := range s {
		sum += p.Activities[i].Cost.At(t)
	}
	return sum
}

// smoother is a schedule being improved in place.
type smoother struct {
	m     *model
	f     profile
	start []int32
	hi    []int32 // latest starts that keep the primary aim
	out   []bool  // taken out at present
	left  int     // placements the budget still pays for
	rnd   *chance
	list  []int32 // all not held
	group []int32
	old   []int32 // starts before the present move, by activity
}

func newSmoother(m *model, s Schedule, b Budget) *smoother {
	sm := &smoother{m: m, start: make([]int32, m.n), hi: make([]int32, m.n), out: make([]bool, m.n),
		old: make([]int32, m.n), left: max(1, b.Schedules) * max(1, m.free), rnd: newChance(b.Seed)}
	sm.f.copyFrom(&m.busy)
	end := int32(s.Makespan(m.p))
	for i, t := range s {
		sm.start[i] = int32(t)
		sm.hi[i] = min(m.hi[i], end-m.dur[i])
		if m.p.Horizon == 0 { // the horizon of our own making binds nobody
			sm.hi[i] = max(sm.hi[i], int32(t))
		}
		if !m.held[i] {
			sm.f.take(&m.uses[i], int32(t), m.dur[i])
			sm.list = append(sm.list, int32(i))
		}
	}
	return sm
}

func (sm *smoother) cost(i, t int32) int { return sm.m.p.Activities[i].Cost.At(int(t)) }

// window is where i may start, given all that is not taken out.
func (sm *smoother) window(i int32) (lo, hi int32) {
	lo, hi = sm.m.lo[i], sm.hi[i]
	row, back := sm.m.dist[i], sm.m.back[i]
	for j, t := range sm.start {
		if sm.out[j] || j == int(i) {
			continue
		}
		if e := back[j]; e != noLag {
			lo = max(lo, t+e)
		}
		if e := row[j]; e != noLag {
			hi = min(hi, t-e)
		}
	}
	return lo, hi
}

// best is the cheapest start of i within its window that the resources allow.
// On each straight piece of its cost that is the nearest one to the piece's
// cheaper end.
func (sm *smoother) best(i int32) (int32, bool) {
	sm.left--
	lo, hi := sm.window(i)
	if lo > hi {
		return 0, false
	}
	u, dur := &sm.m.uses[i], sm.m.dur[i]
	curve := sm.m.p.Activities[i].Cost
	at, cost, found := int32(0), 0, false
	curve.pieces(int(lo), int(hi), func(a, b int) bool {
		first, last := curve.At(a), curve.At(b)
		if found && min(first, last) >= cost {
			return true
		}
		t := int32(a)
		if first <= last {
			if t = sm.f.earliest(u, t, dur); t > int32(b) {
				return true
			}
		} else if t = sm.f.latest(u, int32(b), dur); t < int32(a) {
			return true
		}
		if v := curve.At(int(t)); !found || v < cost {
			at, cost, found = t, v, true
		}
		return true
	})
	return at, found
}

func (sm *smoother) lift(i int32) {
	sm.f.give(&sm.m.uses[i], sm.start[i], sm.m.dur[i])
	sm.out[i] = true
}

func (sm *smoother) drop(i, t int32) {
	sm.f.take(&sm.m.uses[i], t, sm.m.dur[i])
	sm.start[i], sm.out[i] = t, false
}
