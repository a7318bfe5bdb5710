package plan

import "hobside/internal/plan/rcpsp"

// around holds how many minutes before and after the steps that must move a
// re-plan may change. They are tried in this order before everything is planned
// anew.
var around = [...]int{0, 45, 150}

// keep looks for a plan that changes only the steps that must move and those near
// them.
func (in *Input) keep(p *project) ([]int, bool) {
	pushed, known := p.pushed(in.Known)
	if pushed == nil || p.mustMove(pushed, known) > len(known)/2 {
		return nil, false
	}
	for _, near := range around {
		q := p.pinned(pushed, known, near)
		m := q.mirror(q.from, in.Known)
		s, _, err := rcpsp.Solve(m.Problem, rcpsp.Budget{Schedules: findWithin / 4, Seed: 1})
		if err != nil {
			continue
		}
		effort := polishFor
		if better, _, err := rcpsp.ReduceCost(m.Problem, s, rcpsp.Budget{Schedules: max(1, effort*1000/max(1, len(p.acts))), Seed: 1}); err == nil {
			s = better
		}
		// Checked against the dinner's own rules, without the pins.
		m = p.mirror(p.from, in.Known)
		starts := q.mirror(q.from, in.Known).starts(s)
		if rcpsp.Check(m.Problem, m.schedule(starts)) == nil {
			return starts, true
		}
	}
	return nil, false
}

// pushed returns the start of each activity when the accepted plan is delayed only
// as far as lags, the time and started steps require; cooks and equipment are
// ignored. At holds the accepted starts. It returns nil when the lags alone can't
// be met.
func (p *project) pushed(known map[Step]int) (pushed []int, at map[int]int) {
	at = map[int]int{}
	first := map[int]bool{}
	pushed = make([]int, len(p.acts))
	for i := range p.acts {
		a := &p.acts[i]
		t, ok := known[p.tasks[a.task].Step]
		head := !first[a.task]
		first[a.task] = true
		switch {
		case a.held:
			pushed[i] = a.start
		case ok && head && p.tasks[a.task].Load <= 1:
			at[i] = t
			pushed[i] = max(t, a.lo, p.from)
		default:
			pushed[i] = max(a.lo, p.from)
		}
	}
	for round := 0; ; round++ {
		moved := false
		for _, l := range p.lags {
			if t := pushed[l.from] + l.min; t > pushed[l.to] && !p.acts[l.to].held {
				pushed[l.to], moved = t, true
			}
		}
		if !moved {
			return pushed, at
		}
		if round > len(p.acts) {
			return nil, nil
		}
	}
}

// mustMove returns how many activities can't start when the accepted plan says.
func (p *project) mustMove(pushed []int, known map[int]int) int {
	n := 0
	for i, t := range known {
		if pushed[i] != t || t > p.acts[i].hi {
			n++
		}
	}
	return n
}

// pinned returns the project with every activity fixed to its accepted start,
// except those that must move and those within near minutes of one that must.
func (p *project) pinned(pushed []int, known map[int]int, near int) *project {
	var moves []shift
	for i, t := range known {
		if pushed[i] != t || t > p.acts[i].hi {
			moves = append(moves, shift{min(t, pushed[i]) - near, max(t, pushed[i]) + p.acts[i].dur + near})
		}
	}
	for _, s := range p.tooMuch(pushed) {
		moves = append(moves, shift{s.from - near, s.to + near})
	}
	q := *p
	q.acts = append([]act{}, p.acts...)
	for i, t := range known {
		a := &q.acts[i]
		free := pushed[i] != t || t > a.hi || t < a.lo
		for _, m := range moves {
			free = free || near > 0 && t < m.to && t+a.dur > m.from
		}
		if !free {
			a.lo, a.hi = t, t
		}
	}
	return &q
}

// tooMuch returns the times at which the activities, at given starts, want more than there
// is because a cook or some equipment is not there.
func (p *project) tooMuch(starts []int) []shift {
	if p.fixed() {
		return nil
	}
	var out []shift
	look := func(resource int, gone shift, there func(t int) int) {
		at := []int{gone.from}
		for i := range p.acts {
			if starts[i] > gone.from && starts[i] < gone.to {
				at = append(at, starts[i])
			}
		}
		for _, t := range at {
			used, until := 0, gone.to
			for i := range p.acts {
				a := &p.acts[i]
				for _, n := range a.needs {
					if n.Resource == resource && starts[i] <= t && t < starts[i]+a.dur {
						used, until = used+n.Amount, min(until, starts[i]+a.dur)
					}
				}
			}
			if used > there(t) {
				out = append(out, shift{t, until})
			}
		}
	}
	for _, away := range p.absent {
		for _, s := range away {
			look(cooksResource, s, p.cooksAt)
		}
	}
	for _, l := range p.lacks {
		for i := range p.pools {
			if p.pools[i].name == l.name {
				look(firstEquipment+i, l.shift, func(t int) int { return p.placesAt(&p.pools[i], t) })
			}
		}
	}
	return out
}
