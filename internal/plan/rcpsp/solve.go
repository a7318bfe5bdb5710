package rcpsp

// A Budget bounds the work. It never looks at a clock: the same budget gives the
// same schedule on a slow machine, only later.
type Budget struct {
	// Schedules is how many schedules may be generated. Each pass of a
	// forward-backward improvement counts as one, and so does each dead end of
	// the exhaustive search.
	Schedules int
	Seed      uint64
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
	Status    Status
	Schedules int // generated
	Bound     int // no schedule ends before
	Lags      int // end of the longest chain of lags, resources aside
}

// Solve looks for the schedule of p that ends earliest. The error is one of
// Validate's, an [*Impossible], or [ErrNotFound].
func Solve(p *Problem, b Budget) (Schedule, Report, error) {
	if err := p.Validate(); err != nil {
		return nil, Report{}, err
	}
	m, why := compile(p)
	if why != nil {
		return nil, Report{Status: Infeasible}, why
	}
	rep := Report{Bound: int(m.bound())}
	for i := range m.lo {
		rep.Lags = max(rep.Lags, int(m.lo[i]+m.dur[i]))
	}
	if m.n == 0 {
		rep.Status = Optimal
		return Schedule{}, rep, nil
	}
	d := newDecoder(m, max(1, b.Schedules))
	br := newBreed(d, newChance(b.Seed), int32(rep.Bound))
	br.sow(40)
	br.run(d.limit)
	rep.Schedules = d.spent
	if br.best == nil {
		return nil, rep, ErrNotFound
	}
	rep.Status = Feasible
	if br.bestEnd <= br.bound {
		rep.Status = Optimal
	}
	return br.best, rep, nil
}
