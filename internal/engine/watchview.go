package engine

import "hobside/internal/monitor"

// WatchCall asks how the readings of a step stand. Now is the device's
// corrected clock; Offset is how many minutes the wall clock is ahead of UTC.
type WatchCall struct {
	Dinner string `json:"dinner"`
	Key    string `json:"key"` // of a step
	Now    int64  `json:"now"`
	Offset int    `json:"offset"`
}

// WatchView is what there is to watch at a step: one line for the stove, the
// rest a touch away.
type WatchView struct {
	Kind    monitor.WatchKind  `json:"kind"`
	State   monitor.LimitState `json:"state"`
	Line    string             `json:"line"` // the one line, "" for nothing to say
	Lines   []WatchLine        `json:"lines"`
	Asks    []AskView          `json:"asks"`
	Points  []PointView        `json:"points"` // readings or weights in order of time
	Curve   []CurveView        `json:"curve"`  // a cooling forecast, for a drawing; empty for none
	Marks   []MarkView         `json:"marks"`  // where its limits lie
	Ways    []WayView          `json:"ways"`   // what would cool it quicker, when a limit is in doubt
	Vessel  string             `json:"vessel"` // how it stands to cool, as said or assumed
	Said    bool               `json:"said"`   // a cook said so; false: all of it assumed
	Assumed []string           `json:"assumed"`
	Defer   string             `json:"defer"` // whose word comes first
}

// WatchLine is one comparison with whose limit it is.
type WatchLine struct {
	State  monitor.LimitState `json:"state"` // "" for a remark
	Text   string             `json:"text"`
	Source string             `json:"source"`
}

// AskView is a reading that is not counted until it is settled.
type AskView struct {
	Event string  `json:"event"`
	At    int64   `json:"at"`
	Text  string  `json:"text"`
	TempC float64 `json:"tempC"` // what it is by the other unit, with Was
	Was   string  `json:"was"`   // the unit that the probe showed then, "°F" or "°C"; "" where no unit explains it
}

// PointView is one reading or weight.
type PointView struct {
	Event   string  `json:"event"`
	At      int64   `json:"at"`
	Text    string  `json:"text"` // "63 °C", "1.4 kg"
	C       float64 `json:"c"`
	Who     string  `json:"who"`
	Counted bool    `json:"counted"`
}

// CurveView is a forecast at one moment.
type CurveView struct {
	At    int64   `json:"at"`
	Slow  float64 `json:"slow"`
	Mid   float64 `json:"mid"`
	Quick float64 `json:"quick"`
}

// MarkView is the corner that a cooling limit draws: so cold by then.
type MarkView struct {
	At   int64   `json:"at"`
	C    float64 `json:"c"`
	Text string  `json:"text"`
}

// WayView is another way to cool it, and what it would give.
type WayView struct {
	Text  string   `json:"text"`
	Meets bool     `json:"meets"`
	Lines []string `json:"lines"`
}
