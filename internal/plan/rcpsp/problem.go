package rcpsp

// Origin stands for time zero in a [Lag] of an [InfeasibleError]: a release, a
// deadline and a fixed start are time lags from and to time zero.
const Origin = -1

// MaxCapacity is the largest capacity of a resource and the largest amount that
// an activity can need of it. The solver packs four resources into one 64-bit
// word and has 15 bits for each.
const MaxCapacity = 1<<15 - 1

// MaxTime is the largest absolute value of a time, a duration or a time lag. With
// it, sums of times do not overflow.
const MaxTime = 1 << 24

// A Problem is a set of activities with time lags between them and resources that
// they share. Times are whole numbers in a unit of the caller's choice; the
// effort to solve a problem does not depend on how fine the unit is. Nothing in
// this package changes a Problem.
type Problem struct {
	Activities []Activity
	Lags       []Lag
	Resources  []Resource
	// Horizon is the time by which all activities have to end. Zero lets the
	// solver choose one: the end of all calendars plus every duration and time
	// lag in sequence. That is always enough without maximum time lags and
	// deadlines, and a generous guess with them.
	Horizon int
}

// An Activity runs without interruption (no preemption) for Dur units of time.
type Activity struct {
	Dur      int
	Needs    []Need // at most one for each resource
	Release  int    // earliest start; starts are never below zero
	Deadline int    // latest end; zero means the horizon
	// Fixed activities start at Start, whatever Release and Deadline say: they
	// have already started, or their start is promised.
	Fixed bool
	Start int // used only if Fixed; may be negative
	// Cost is the cost of each start time. [ReduceCost] reads it, [Solve] does not.
	Cost Curve
}

// A Need is the amount of one resource that an activity uses while it runs (its
// resource requirement).
type Need struct {
	Resource int // index in Problem.Resources
	Amount   int // 0 to MaxCapacity
	// State is the state that the resource has to be in, such as a temperature.
	// Activities that use a resource at the same moment must not name different
	// states. Zero is compatible with every state.
	State int
}

// A Lag is a time lag from start to start: Start[To] >= Start[From] + Min. A
// positive Min is a minimum time lag. A negative Min is a maximum time lag in the
// other direction: From starts at most -Min after To.
type Lag struct{ From, To, Min int }

// A Resource is renewable: what an activity uses is available again when the
// activity ends. Cap is the capacity up to the first change; each change holds
// until the next one.
type Resource struct {
	Cap     int      // 0 to MaxCapacity
	Changes []Change // the calendar, in strictly ascending order of At
}

// A Change sets the capacity of a resource from time At on. A break is a change to
// zero followed by a change back.
type Change struct{ At, Cap int }

// at returns the capacity at time t.
func (r *Resource) at(t int) int {
	capacity := r.Cap
	for _, c := range r.Changes {
		if c.At > t {
			break
		}
		capacity = c.Cap
	}
	return capacity
}

// A Schedule holds the start time of each activity, in the order of
// Problem.Activities.
type Schedule []int

// Makespan returns the end of the activity that ends last. Solve minimizes it.
// Fixed activities count too. The makespan of an empty schedule is zero.
func (s Schedule) Makespan(p *Problem) int {
	end := 0
	for i, t := range s {
		if e := t + p.Activities[i].Dur; i == 0 || e > end {
			end = e
		}
	}
	return end
}

// horizon returns the problem's own horizon, or a time by which some shortest
// schedule has ended: every activity in sequence, each with its longest time lag,
// after the last calendar change and the last release.
func (p *Problem) horizon() int {
	if p.Horizon > 0 {
		return p.Horizon
	}
	h := 0
	length := make([]int, len(p.Activities))
	for _, r := range p.Resources {
		if len(r.Changes) > 0 {
			h = max(h, r.Changes[len(r.Changes)-1].At)
		}
	}
	for i, a := range p.Activities {
		length[i] = a.Dur
		h = max(h, a.Release)
		if a.Fixed {
			h = max(h, a.Start+a.Dur)
		}
	}
	for _, l := range p.Lags {
		length[l.From] = max(length[l.From], l.Min)
	}
	for _, n := range length {
		h += n
	}
	return min(h, MaxTime)
}
