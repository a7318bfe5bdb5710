package rcpsp

import (
	"errors"
	"fmt"
	"strings"
)

// ErrNotFound means that the search used its whole budget and found neither a
// schedule nor a proof that there is none. A larger budget may find either.
var ErrNotFound = errors.New("no schedule was found within the budget, and none was proven impossible")

// InfeasibleError means that the problem has no schedule, and gives a reason. At
// most one field is set. None is set when only the exhaustive search shows that
// there is no schedule; [Report].Conflicting then says which activities were
// most often in conflict.
type InfeasibleError struct {
	// Cycle is a cycle of positive length in the time lags: each lag begins at
	// the activity where the one before it ends, and the sum of their Min is
	// positive, so that an activity would have to start after itself. A lag from
	// [Origin] is a release or a fixed start, a lag to [Origin] is a deadline,
	// the horizon or a fixed start.
	Cycle       []Lag
	Unplaceable *Unplaceable
	Overload    *Overload
	Disjunction *Disjunction
}

// Unplaceable is an activity that fits nowhere in its time window, even without
// the other activities that are free to move.
type Unplaceable struct {
	Activity int // index in Problem.Activities
	Resource int // index in Problem.Resources: the one that is short
}

// Overload is a set of activities that must run within one interval and that
// together require more energy (amount times time) of a resource than the
// resource has in that interval.
type Overload struct {
	Activities []int // ascending
	Resource   int
	From, To   int // the interval, in units of time
	Required   int // energy, in units of the resource times units of time
	Available  int // energy, less than Required
}

// Disjunction is a pair of activities that cannot share a resource, while the
// time lags between them allow neither to come first.
type Disjunction struct {
	First, Second int // First < Second
	Resource      int
}

// Error describes the reason in one sentence.
func (e *InfeasibleError) Error() string {
	switch {
	case len(e.Cycle) > 0:
		return describeCycle(e.Cycle)
	case e.Unplaceable != nil:
		return fmt.Sprintf("activity %d fits nowhere in its time window: resource %d never has enough left for long enough",
			e.Unplaceable.Activity, e.Unplaceable.Resource)
	case e.Overload != nil:
		o := e.Overload
		return fmt.Sprintf("activities %v must all run between %d and %d and require %d of resource %d over that time, which has %d",
			o.Activities, o.From, o.To, o.Required, o.Resource, o.Available)
	case e.Disjunction != nil:
		d := e.Disjunction
		return fmt.Sprintf("activities %d and %d cannot use resource %d at the same time, and the time lags between them allow neither to come first",
			d.First, d.Second, d.Resource)
	}
	return "no schedule exists: the exhaustive search tried every choice"
}

func describeCycle(cycle []Lag) string {
	var b strings.Builder
	sum := 0
	b.WriteString("the time lags contradict each other:")
	for _, l := range cycle {
		fmt.Fprintf(&b, " %s to %s at least %d,", describeEvent(l.From), describeEvent(l.To), l.Min)
		sum += l.Min
	}
	fmt.Fprintf(&b, " together %d too much", sum)
	return b.String()
}

func describeEvent(activity int) string {
	if activity == Origin {
		return "time zero"
	}
	return fmt.Sprintf("activity %d", activity)
}
