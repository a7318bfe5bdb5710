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
// groups is set, or nothing where only exhaustion of every choice shows it.
type Impossible struct {
	// Lags chain from one to the next and come back to where they began: they
	// add up to more than nothing, so that something would have to start after
	// itself. A lag from [Origin] is a release or a held start, a lag to it a
	// deadline, a horizon or a held start.
	Lags []Lag
	// Activity can run at no moment of its window, for want of Resource, if Lone.
	Lone               bool
	Activity, Resource int
	// Crowd holds activities that must all run between From and To, where there
	// is not as much of Resource as they take: Need and Have in units times time.
	// If Need is zero, they are two that cannot share Resource, and the lags
	// between them allow neither order.
	Crowd                []int
	From, To, Need, Have int
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
	case len(e.Crowd) > 0 && e.Need == 0:
		return fmt.Sprintf("activities %v cannot both have resource %d at one time, and the lags between them allow neither order", e.Crowd, e.Resource)
	case len(e.Crowd) > 0:
		return fmt.Sprintf("activities %v must all run between %d and %d and take %d of resource %d over that time, where there is %d",
			e.Crowd, e.From, e.To, e.Need, e.Resource, e.Have)
	}
	return "no schedule exists: every choice was tried"
}

func name(activity int) string {
	if activity == Origin {
		return "zero"
	}
	return fmt.Sprintf("activity %d", activity)
}
