package engine

import "hobside/internal/monitor"

// ClockCall asks about a dinner at a moment. Now is the device's corrected
// clock; Offset is how many minutes the wall clock is ahead of UTC.
type ClockCall struct {
	Dinner string `json:"dinner"`
	Now    int64  `json:"now"`
	Offset int    `json:"offset"`
}

// ControlsView is the log of a dinner's control points.
type ControlsView struct {
	Points []ControlView `json:"points"`
	CSV    string        `json:"csv"`   // the whole log, RFC 4180, a row an entry
	Rules  string        `json:"rules"` // whose limits are compared with, in words
	Made   string        `json:"made"`  // when this was written down, wall clock
	Defer  string        `json:"defer"`
}

// ControlView is one control point of a batch.
type ControlView struct {
	Key     string              `json:"key"` // of the step
	At      StepPlace           `json:"at"`
	Card    string              `json:"card"`
	Title   string              `json:"title"`
	Batch   string              `json:"batch"`  // "2 of 3", "" for the only one
	Number  int                 `json:"number"` // of the step
	What    monitor.ControlKind `json:"what"`
	Step    string              `json:"step"`   // its words
	Limits  []WatchLine         `json:"limits"` // as they stand now
	State   monitor.LimitState  `json:"state"`  // "" for readings without a limit
	Say     string              `json:"say"`    // what is still to be written down, "" for nothing
	Entries []EntryView         `json:"entries"`
}

// EntryView is one line of the log. None is ever taken off it.
type EntryView struct {
	Event string `json:"event"`
	At    int64  `json:"at"`
	Time  string `json:"time"` // wall clock "2027-06-12 19:42"
	Who   string `json:"who"`
	Text  string `json:"text"` // "64 °C", "back in the oven"
	Note  bool   `json:"note"` // words, not a reading
	Back  string `json:"back"` // "taken back 2027-06-12 19:50, first cook", "" when it stands
	Doubt string `json:"doubt"`
}

// LabelsView is a label for each thing the dinner makes.
type LabelsView struct {
	Labels []LabelView `json:"labels"`
	Defer  string      `json:"defer"`
}

// LabelView is one label.
type LabelView struct {
	Key         string   `json:"key"` // of the batch
	Name        string   `json:"name"`
	Amount      string   `json:"amount"`
	Done        bool     `json:"done"` // made already
	Made        string   `json:"made"` // "Sat 12 Jun 2027, 14:05", "" while it is not made
	By          string   `json:"by"`   // who ticked its last step
	Use         string   `json:"use"`  // "Tue 15 Jun 2027"; "within 4 days" while it is not made; "" where there is no number
	Basis       string   `json:"basis"`
	Keeps       []string `json:"keeps"` // as the card says
	Carries     []string `json:"carries"`
	May         []string `json:"may"`
	NotAssessed []string `json:"notAssessed"`
	Without     []string `json:"without"` // what its author answers for
	List        string   `json:"list"`    // whose list of allergens
}
