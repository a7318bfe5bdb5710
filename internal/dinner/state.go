package dinner

import (
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// State is what the events of one dinner add up to. Maps are by [Key].
type State struct {
	Dinner   string                     `json:"dinner"`
	Name     string                     `json:"name"`
	Open     *Open                      `json:"open"` // pins already applied; nil until the opening event is known
	Covers   int                        `json:"covers"`
	Guests   *string                    `json:"guests"` // who can't have what, a line a group; nil: as the menu says
	Serve    string                     `json:"serve"`
	Ticks    map[string]Tick            `json:"ticks"`
	Starts   map[string]Moment          `json:"starts"`
	Ends     map[string]Moment          `json:"ends"`
	Measures map[string][]Measure       `json:"measures"` // newest last; all kept
	Temps    map[string][]Temp          `json:"temps"`
	Timers   map[string]Timer           `json:"timers"` // running or rung, not stopped
	Ways     map[string]int             `json:"ways"`
	Leave    map[string]bool            `json:"leave"`
	Seats    map[string]int             `json:"seats"` // plate of a course that guests get, by course key, a space and their exclusions; 0: as the menu says
	Portions map[string]quantity.Number `json:"portions"`
	Again    map[string]bool            `json:"again"`
	Have     map[string]quantity.Amount `json:"have"`   // by order line
	Delays   map[string]int             `json:"delays"` // minutes
	Later    map[string]int64           `json:"later"`  // put off: not before, Unix milliseconds
	Notes    []Note                     `json:"notes"`
	Changes  []Said                     `json:"changes"` // oldest first
	Plan     *Plan                      `json:"plan"`    // the one the cooks took last; nil while they took none
	Shelf    int                        `json:"shelf"`   // where the dinner is listed: Listed, PutAway, Deleted
	Last     string                     `json:"last"`    // key of the step last ticked, started or finished: where the cook was
}

// Where a dinner is listed. Its events stay wherever it is, so that it can be brought back.
const (
	Listed = iota
	PutAway
	Deleted
)

// Tick is the newest event on one check-off.
type Tick struct {
	Done   bool   `json:"done"`
	At     int64  `json:"at"` // stamp's wall, Unix milliseconds
	Device string `json:"device"`
	Event  string `json:"event"` // what an undo would name
}

// Moment is a point in time somebody recorded.
type Moment struct {
	At     int64  `json:"at"`
	Device string `json:"device"`
	Event  string `json:"event"`
}

// Measure is one weighing. Two different ones of one batch are both kept and
// the newest counts.
type Measure struct {
	Amount quantity.Amount `json:"amount"`
	At     int64           `json:"at"`
	Device string          `json:"device"`
	Event  string          `json:"event"`
}

// Temp is one reading of a probe.
type Temp struct {
	C      float64 `json:"c"`
	At     int64   `json:"at"`
	Device string  `json:"device"`
	Event  string  `json:"event"`
}

// Timer runs from Start to End, both Unix milliseconds.
type Timer struct {
	Start  int64  `json:"start"`
	End    int64  `json:"end"`
	Device string `json:"device"`
	Event  string `json:"event"`
}

// Plan is when each step starts, in minutes after the serving time, by key.
type Plan struct {
	Starts map[string]int `json:"starts"`
	At     int64          `json:"at"`
	Device string         `json:"device"`
	Event  string         `json:"event"`
}

// Said is what is other than the kitchen and the menu say, as somebody said it.
type Said struct {
	Do     []plan.Deed `json:"do"`
	At     int64       `json:"at"`
	Who    string      `json:"who"` // the name of who said it, "" where that phone has none
	Device string      `json:"device"`
	Event  string      `json:"event"`
}

// Note is something somebody wrote down.
type Note struct {
	On     string `json:"on"`
	Text   string `json:"text"`
	At     int64  `json:"at"`
	Device string `json:"device"`
	Event  string `json:"event"`
}
