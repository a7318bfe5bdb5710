package plan

import "hobside/internal/menu"

// A Plan says when each step starts. It keeps every rule of the cards and the
// kitchen, but for what its own fields own up to.
type Plan struct {
	Serve        menu.When
	ClockChanges []ClockChange
	Tasks        []Task       // by start
	Courses      []Course     // in the menu's order
	Ways         []Choice     // of the cards that have several
	Assumed      []Assumption // waiting times that no card gives
	Notes        []string     // what the plan takes for granted, in words
	Margin       int          // per cent of the time in hand it could put behind each step
	Aims         Aims

	project *project
}

// A Task is one step, or one load of it.
type Task struct {
	Step
	Load, Loads int // 1 of 3; both 0 when all goes at once
	Start       int // minutes after the serving time, as all here
	Free        int // the cook is free again
	End         int // the waiting is over
	Latest      int // a start later than that breaks a rule, all else as planned
	Cook        int // 1 + index of the kitchen's cooks; 0 when nobody is needed
	On          []Place
	Held        bool // begun or done: as it happened
	Done        bool
	Overdue     int // minutes past its keeping time before the next step can start, 0 for none
}

// A Place is a part of the equipment that a task takes up.
type Place struct {
	Equipment string
	Unit      int // 1 + which of them: ring, shelf, oven
	TempC     float64
	HasTemp   bool
}

// A Course is when a course goes out.
type Course struct {
	Name string
	Due  int // by the menu
	At   int // by the plan; later than Due only in a dinner that is under way
}

// A Choice is the way taken of a card that has several, and why.
type Choice struct {
	Card string
	Way  int // 1 + index
	Why  string
}

// An Assumption is a waiting time the card does not give.
type Assumption struct {
	Card    string
	Step    int // 1 + index
	Minutes int
	Place   string
}

// Aims are what a plan is judged by, the weightiest first; less is better.
type Aims struct {
	Late     int // minutes courses go out late, in all
	LastHour int // attended minutes from one hour before the first course on
	OnTheDay int // attended minutes on the day of serving
	Waiting  int // minutes from a step's end to the serving time, in all
}

// Less compares two plans by their aims.
func (a Aims) Less(b Aims) bool {
	switch {
	case a.Late != b.Late:
		return a.Late < b.Late
	case a.LastHour != b.LastHour:
		return a.LastHour < b.LastHour
	case a.OnTheDay != b.OnTheDay:
		return a.OnTheDay < b.OnTheDay
	}
	return a.Waiting < b.Waiting
}
