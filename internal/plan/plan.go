package plan

import (
	"slices"

	"hobside/internal/document"
)

// A Plan says when each step starts. It keeps every rule of the cards and the
// kitchen, except where its fields say otherwise (Task.Overdue, a late Course,
// Notes).
type Plan struct {
	Serve        document.When
	ClockChanges []ClockChange
	Tasks        []Task       // by start
	Heatings     []Heating    // by the time at which equipment is turned on
	Courses      []Course     // in the menu's order
	Ways         []Choice     // of the cards that have several
	Assumed      []Assumption // waiting times that no card gives
	Notes        []string     // assumptions in words
	Margin       int          // per cent of the wanted slack that the plan has behind each step
	Aims         Aims

	project *project
}

// A Task is one step, or one load of it.
type Task struct {
	Step
	Load, Loads int   // "load 1 of 3"; both 0 when everything goes in at once
	Start       int   // minutes after the serving time, as all here
	Free        int   // the cook is free again
	End         int   // the unattended time is over
	Latest      int   // the latest start that breaks no rule, everything else as planned
	Cook        int   // 1 + index of the kitchen's cooks; 0 when nobody is needed
	With        []int // the cooks who share the work, counted like Cook
	On          []Place
	Held        bool // started or done: as it happened
	Done        bool
	Overdue     int // minutes past the keeping time when the next step starts, else 0
}

// By reports whether a cook, 1 + index of the kitchen's, is at the task.
func (t *Task) By(cook int) bool {
	return cook > 0 && (t.Cook == cook || slices.Contains(t.With, cook))
}

// People returns how many cooks are at the task.
func (t *Task) People() int {
	if t.Cook == 0 {
		return 0
	}
	return 1 + len(t.With)
}

// A Place is a piece of equipment that a task uses.
type Place struct {
	Equipment string
	Unit      int // which one, from 1: ring, shelf, oven
	TempC     float64
	HasTemp   bool
}

// A Course is the serving time of a course.
type Course struct {
	Name string
	Due  int // by the menu
	At   int // by the plan; later than Due only when the dinner is under way

	Struck bool // it is not served
}

// A Choice is the way that the plan uses of a card with several, and why.
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

// Aims are what a plan is judged by, the most important first; less is better.
type Aims struct {
	Late     int // minutes that courses are late, in total
	LastHour int // hands-on minutes from one hour before the first course
	OnTheDay int // hands-on minutes on the day of serving
	Waiting  int // minutes from the end of each step to the end of service, in total
}
