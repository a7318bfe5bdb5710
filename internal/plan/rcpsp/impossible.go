package rcpsp

import (
	"errors"
	"fmt"
	"strings"
)

// ErrNotFound says that the budget was used up without a schedule, and without a
// proof that there is none.
var ErrNotFound = errors.New("no schedule was found within the budget, and none was proven impossible")

// Impossible is the error of a problem that has no schedule. One of three
// things is set, or nothing where only exhaustion of every choice shows it.
type Impossible struct {
	// Lags chain from one to the next and come back to where they began: they
	// add up to more than nothing, so that something would have to start after
	// itself. A lag from [Origin] is a release or a held start, a lag to it a
	// deadline, a horizon or a held start.
	Lags []Lag
	// Activity can run at no moment of its window, for want of Resource, if Lone.
	Lone               bool
	Activity, Resource int
	// Crowd holds activities that cannot run in any order within their windows.
	Crowd []int
}

func (e *Impossible) Error() string {
	switch {
	case len(e.Lags) > 0:
		var b strings.Builder
		sum := 0
		b.WriteString("the time lags contradict each other:")
		for _, l := range e.Lags {
			fmt.Fprintf(&b, " %s to %s at least %d,", name(l.From), name(l.To), l.Min)
			sum += l.Min
		}
		fmt.Fprintf(&b, " together %d too much", sum)
		return b.String()
	case e.Lone:
		return fmt.Sprintf("activity %d fits nowhere in its window: there is never enough of resource %d for long enough", e.Activity, e.Resource)
	case len(e.Crowd) > 0:
		return fmt.Sprintf("activities %v exclude each other, and no order of them fits their windows", e.Crowd)
	}
	return "no schedule exists: every choice was tried"
}

func name(activity int) string {
	if activity == Origin {
		return "zero"
	}
	return fmt.Sprintf("activity %d", activity)
}
