package rcpsp

import "fmt"

// Origin stands for time zero where a lag names it: a release, a deadline and a
// held start are lags from and to it.
const Origin = -1

// MaxCapacity is the largest capacity and the largest amount: availability is
// kept in lanes of fifteen bits, four resources to a machine word.
const MaxCapacity = 1<<15 - 1

// MaxTime bounds every time and lag, so that sums of them cannot overflow.
const MaxTime = 1 << 24

// A Problem asks when each activity starts. Times are whole units of the
// caller's choice; the effort to solve does not depend on how fine they are.
type Problem struct {
	Activities []Activity
	Lags       []Lag
	Resources  []Resource
	// Horizon is the time by which everything must have ended. Zero takes the end
	// of all calendars plus every duration and wait in a row: enough without
	// maximum lags or deadlines, a generous guess with them.
	Horizon int
}

// An Activity runs once, without pause, from its start for Dur units.
type Activity struct {
	Dur      int
	Needs    []Need
	Release  int  // may not start before
	Deadline int  // must have ended by; zero means by the horizon
	Fixed    bool // starts at Start, whatever else: it has happened, or it is promised
	Start    int  // read only if Fixed; may lie before zero
	// Cost says what a start is worth to the secondary aims: see [ReduceCost].
	Cost Curve
}

// A Need is what an activity takes of one resource for as long as it runs.
type Need struct {
	Resource int // index in Problem.Resources
	Amount   int
	// State, if not zero, is what the resource must be set to: an oven's
	// temperature. Activities that run on it at one moment and name a state
	// name the same one. Zero goes with any.
	State int
}

// A Lag says Start[To] >= Start[From] + Min. A negative Min is a maximum lag
// read the other way round: From starts at most -Min after To.
type Lag struct{ From, To, Min int }

// A Resource is there again once the activity that had it ends. Cap is its
// capacity until the first change; each change holds until the next.
type Resource struct {
	Cap     int
	Changes []Change // strictly ascending At
}

// A Change sets a resource's capacity from time At on: a break is a change to
// zero and a change back.
type Change struct{ At, Cap int }

// A Schedule holds the start of each activity, in the problem's order.
type Schedule []int

// Makespan is the end of the activity that ends last: the primary aim, to be small.
// Held activities count like any other; an empty schedule ends at zero.
func (s Schedule) Makespan(p *Problem) int {
	end := 0
	for i, t := range s {
		if e := t + p.Activities[i].Dur; i == 0 || e > end {
			end = e
		}
	}
	return end
}

// Validate reports the first thing in p that has no meaning: an index that
// points nowhere, a negative duration, a change out of order, a number out of
// range. It says nothing about whether p can be scheduled.
func (p *Problem) Validate() error {
	if p.Horizon < 0 || p.Horizon > MaxTime {
		return fmt.Errorf("horizon %d is outside 0 to %d", p.Horizon, MaxTime)
	}
	for k, r := range p.Resources {
		if r.Cap < 0 || r.Cap > MaxCapacity {
			return fmt.Errorf("resource %d: capacity %d is outside 0 to %d", k, r.Cap, MaxCapacity)
		}
		for c, ch := range r.Changes {
			if ch.Cap < 0 || ch.Cap > MaxCapacity {
				return fmt.Errorf("resource %d, change %d: capacity %d is outside 0 to %d", k, c, ch.Cap, MaxCapacity)
			}
			if out(ch.At) {
				return fmt.Errorf("resource %d, change %d: time %d is out of range", k, c, ch.At)
			}
			if c > 0 && ch.At <= r.Changes[c-1].At {
				return fmt.Errorf("resource %d: change %d at %d does not come after the one at %d", k, c, ch.At, r.Changes[c-1].At)
			}
		}
	}
	for i := range p.Activities {
		if err := p.validateActivity(i); err != nil {
			return err
		}
	}
	for k, l := range p.Lags {
		n := len(p.Activities)
		if l.From < 0 || l.From >= n || l.To < 0 || l.To >= n {
			return fmt.Errorf("lag %d: %d to %d: there are activities 0 to %d", k, l.From, l.To, n-1)
		}
		if out(l.Min) {
			return fmt.Errorf("lag %d: %d is out of range", k, l.Min)
		}
	}
	return nil
}

func (p *Problem) validateActivity(i int) error {
	a := &p.Activities[i]
	if a.Dur < 0 || a.Dur > MaxTime {
		return fmt.Errorf("activity %d: duration %d is outside 0 to %d", i, a.Dur, MaxTime)
	}
	if out(a.Release) || out(a.Deadline) || out(a.Start) {
		return fmt.Errorf("activity %d: a time is out of range", i)
	}
	for k, nd := range a.Needs {
		if nd.Resource < 0 || nd.Resource >= len(p.Resources) {
			return fmt.Errorf("activity %d needs resource %d: there are %d", i, nd.Resource, len(p.Resources))
		}
		if nd.Amount < 0 || nd.Amount > MaxCapacity {
			return fmt.Errorf("activity %d needs %d of resource %d: outside 0 to %d", i, nd.Amount, nd.Resource, MaxCapacity)
		}
		for _, before := range a.Needs[:k] {
			if before.Resource == nd.Resource {
				return fmt.Errorf("activity %d needs resource %d twice: add the amounts", i, nd.Resource)
			}
		}
	}
	return a.Cost.validate(i)
}

func out(t int) bool { return t < -MaxTime || t > MaxTime }
