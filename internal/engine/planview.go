package engine

import "hobside/internal/dinner"

// PlanView is a dinner worked back from its serving time. All minutes are
// after the serving time, so most are negative.
type PlanView struct {
	Under   bool           `json:"under"`   // the kitchen is at work: what is done is held, the rest moves
	Past    bool           `json:"past"`    // the serving time is long past: the plan is as it would have been
	Blocked []string       `json:"blocked"` // why there is no plan, the main reason first; empty when there is one
	Changes []ChangeView   `json:"changes"` // what would free it, each tried
	Tasks   []TaskView     `json:"tasks"`   // by start
	Courses []PlanCourse   `json:"courses"`
	Cooks   []string       `json:"cooks"`
	Places  []string       `json:"places"` // rings, shelves, machines that are used, in the kitchen's order
	Hours   []PlanHours    `json:"hours"`  // when the kitchen is open
	Ways    []PlanWay      `json:"ways"`
	Assumed []string       `json:"assumed"` // waiting times no card gives
	Notes   []string       `json:"notes"`
	Moves   []string       `json:"moves"`  // what differs from the plan the cooks know
	Starts  map[string]int `json:"starts"` // by step key, for the event that takes this plan
	Chances []ChanceView   `json:"chances"`
	Decide  []string       `json:"decide"` // the steps that decide whether a course is late
}

// ChangeView would free a dinner that can't be done.
type ChangeView struct {
	Text   string `json:"text"`
	Effect string `json:"effect"`
}

// TaskView is one step, or one load of it, in time.
type TaskView struct {
	Key     string           `json:"key"` // dinner.StepKey
	At      dinner.StepPlace `json:"at"`
	Title   string           `json:"title"`
	Number  int              `json:"number"`
	Load    string           `json:"load"` // "load 1 of 3", "" when all goes at once
	Say     string           `json:"say"`  // how the step begins
	Start   int              `json:"start"`
	Free    int              `json:"free"` // the cook is free again
	End     int              `json:"end"`
	Latest  int              `json:"latest"` // a start later than that breaks a rule, all else as planned
	From    string           `json:"from"`   // wall clock of Start
	To      string           `json:"to"`     // of End
	Cook    int              `json:"cook"`   // 1 + index in Cooks, 0 when nobody is needed
	On      []string         `json:"on"`     // of Places
	Heat    string           `json:"heat"`   // "oven 220 °C, 2 shelves"
	Held    bool             `json:"held"`   // begun or done
	Done    bool             `json:"done"`
	Overdue string           `json:"overdue"` // "20 min" past its keeping time, "" for none
}

// PlanCourse is when a course goes out.
type PlanCourse struct {
	Name string `json:"name"`
	At   int    `json:"at"`
	Wall string `json:"wall"`
	Late int    `json:"late"` // minutes after the menu's time
}

// PlanHours is a shift of the kitchen's hours.
type PlanHours struct {
	From int    `json:"from"`
	To   int    `json:"to"`
	Wall string `json:"wall"` // of From
	End  string `json:"end"`  // of To
}

// PlanWay is the way the plan goes of a card that has several.
type PlanWay struct {
	Card   string `json:"card"`
	Title  string `json:"title"`
	Number int    `json:"number"` // 1 + index, for the event that takes it
	Way    string `json:"way"`
	Why    string `json:"why"`
	Taken  bool   `json:"taken"` // the dinner goes that way already
}

// ChanceView is how likely a course goes out on time.
type ChanceView struct {
	Course  string `json:"course"`
	Percent int    `json:"percent"`
	Late    int    `json:"late"` // minutes late in all but the worst of twenty
}

// PlanCall asks for the plan of an open dinner. The engine has no clock: the
// caller says what time it is, and where its clocks change.
type PlanCall struct {
	Dinner       string            `json:"dinner"`
	ServeAt      int64             `json:"serveAt"`      // the serving time, Unix milliseconds
	Now          int64             `json:"now"`          // Unix milliseconds
	ClockChanges []ClockChangeView `json:"clockChanges"` // changes of the clocks from weeks before to days after the serving time, in order
	Fresh        bool              `json:"fresh"`        // make the best plan, whatever plan the cooks know
	Full         bool              `json:"full"`         // also the chances, and what would free a dinner that can't be done
}

// ClockChangeView is a change of the clocks.
type ClockChangeView struct {
	Wall string `json:"wall"` // by the old clock, "2006-01-02T15:04"
	By   int    `json:"by"`   // minutes they are put on by
}
