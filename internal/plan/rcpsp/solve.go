package rcpsp

// A Budget bounds the work. It never looks at a clock: the same budget gives the
// same schedule on a slow machine, only later.
type Budget struct {
	// Schedules is how many schedules may be generated. Each pass of a
	// forward-backward improvement counts as one, and so does each dead end of
	// the exhaustive search.
	Schedules int
	Seed      uint64
	// Initial, if it has a start for each activity, is a schedule to begin from: the
	// plan of before a change. It need not keep the rules any more.
	Initial Schedule
}

// Status is how far the search got.
type Status int

// What can be said of a problem when the budget is used.
const (
	NotFound   Status = iota // neither a schedule nor a proof that there is none
	Feasible                 // a schedule
	Optimal                  // a schedule, and a proof that none ends earlier
	Infeasible               // a proof that there is none
)

// A Report says what the search did.
type Report struct {
	Status       Status
	Schedules    int // generated
	LowerBound   int // no schedule ends before
	CriticalPath int // end of the longest chain of lags, resources aside
	// Conflicting lists up to eight activities that dead ends were most often about,
	// most first: where to look when there is no schedule, or only a late one.
	Conflicting []int
}

// population is how many lists each side of the breeding keeps, and breeding
// the percentage of the budget it gets before the exhaustive search takes over.
// Both were set on the development instances as a whole.
const (
	population = 80
	breeding   = 30
)

// Solve looks for the schedule of p that ends earliest. The error is one of
// Validate's, an [*InfeasibleError], or [ErrNotFound].
//
// It begins with priority rules, breeds their lists, and then searches
// exhaustively, as far as the budget goes, for anything that ends earlier.
func Solve(p *Problem, b Budget) (Schedule, Report, error) {
	if err := p.Validate(); err != nil {
		return nil, Report{}, err
	}
	m, why := compile(p)
	if why != nil {
		return nil, Report{Status: Infeasible}, why
	}
	if m.n == 0 {
		return Schedule{}, Report{Status: Optimal}, nil
	}
	rep := Report{LowerBound: int(m.bound()), CriticalPath: int(always)}
	for i := range m.lo {
		rep.CriticalPath = max(rep.CriticalPath, int(m.lo[i]+m.dur[i]))
	}
	d := newDecoder(m, max(1, b.Schedules))
	br := newBreed(d, newChance(b.Seed), int32(rep.LowerBound))
	br.know(b.Initial)
	br.sow(population, d.limit*breeding/100)
	br.run(d.limit * breeding / 100)
	proven := br.bestEnd <= br.bound
	if !proven {
		proven, rep.Conflicting = br.exhaust(b.Initial)
	}
	rep.Schedules = d.spent
	switch {
	case br.best != nil && proven:
		rep.Status, rep.LowerBound = Optimal, int(br.bestEnd)
	case br.best != nil:
		rep.Status = Feasible
	case proven:
		rep.Status = Infeasible
		return nil, rep, &InfeasibleError{}
	default:
		return nil, rep, ErrNotFound
	}
	return br.best, rep, nil
}

// know takes a schedule from outside: if it keeps the rules it is the one to beat,
// and in any case its order is one to try.
func (b *breed) know(s Schedule) {
	m := b.d.m
	if len(s) != m.n {
		return
	}
	if Check(m.p, s) == nil {
		b.best = append(b.best, s...)
		b.bestEnd = int32(s.Makespan(m.p))
	}
	list := m.list(func(i int32) float64 { return float64(s[i]) })
	if b.done() {
		return
	}
	if end := b.goLeft(list); end < never {
		b.left = append(b.left, individual{list, end})
	}
}

// exhaust spends what is left of the budget on the exhaustive search, and says
// whether it came to its end and what the dead ends were about.
func (b *breed) exhaust(known Schedule) (proven bool, trouble []int) {
	x := newExhaust(b.d, b.bestEnd)
	hint := known
	if b.best != nil {
		hint = b.best
	}
	if len(hint) == b.d.m.n {
		for _, t := range hint {
			x.hint = append(x.hint, int32(max(-MaxTime, min(t, MaxTime))))
		}
	}
	x.run(b.bound)
	if x.best != nil {
		b.bestEnd, b.best = x.end, b.best[:0]
		for _, t := range x.best {
			b.best = append(b.best, int(t))
		}
	}
	return x.proven, x.l.hottest(8)
}
