package rcpsp

// Budget limits the work of [Solve] and [ReduceCost] and fixes their random
// choices. It does not depend on a clock: the same budget gives the same schedule
// on a slow machine, only later.
type Budget struct {
	// Schedules is how many schedules may be generated; values below 1 count as
	// 1. It is a hard bound. In Solve, each pass of a forward-backward
	// improvement and each conflict of the exhaustive search counts as one
	// schedule. In ReduceCost, one schedule pays for as many placements of an
	// activity as the problem has activities that are not fixed.
	Schedules int
	// Seed selects the sequence of random numbers.
	Seed uint64
	// Initial is a schedule to start from, such as the plan before a change. It
	// may violate constraints. Solve ignores it unless it has one start for each
	// activity; ReduceCost does not read it.
	Initial Schedule
}

// effort counts what a search has used of its budget. Whoever generates a
// schedule has to spend one unit first, so the limit cannot be exceeded.
type effort struct{ used, limit int }

// newEffort returns the effort for a number of schedules.
func newEffort(schedules int) effort { return effort{limit: max(1, schedules)} }

// left returns how many units can still be spent.
func (e *effort) left() int { return e.limit - e.used }

// exhausted reports whether nothing is left.
func (e *effort) exhausted() bool { return e.used >= e.limit }

// spend takes n units. It returns false, and takes nothing, if fewer are left.
func (e *effort) spend(n int) bool {
	if e.left() < n {
		return false
	}
	e.used += n
	return true
}
