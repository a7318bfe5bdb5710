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

// ClockCall asks about a dinner at a moment. Now is the device's corrected
// clock; Offset is how many minutes the wall clock is ahead of UTC.
type ClockCall struct {
	Dinner string `json:"dinner"`
	Now    int64  `json:"now"`
	Offset int    `json:"offset"`
}

// WatchView is what there is to watch at a step.
type WatchView struct {
	monitor.Watch
	Defer string `json:"defer"` // local codes come first
}

// ControlsView is the log of a dinner's control points.
type ControlsView struct {
	Points []monitor.Control `json:"points"`
	CSV    string            `json:"csv"`   // the whole log, RFC 4180, a row for each entry
	Rules  string            `json:"rules"` // whose limits are compared with, in words
	Made   string            `json:"made"`  // when this was written down, wall clock
	Defer  string            `json:"defer"`
}

// LabelsView is a label for each thing the dinner makes.
type LabelsView struct {
	Labels []monitor.Label `json:"labels"`
	Defer  string          `json:"defer"`
}

// reader returns an open dinner at a moment, as this cook reads it. The engine
// has no clock, so each call says what time it is. It fails when the dinner is
// not open.
func (e *Engine) reader(id string, now int64, offset int) (*monitor.Reader, error) {
	f, err := e.opened(id)
	if err != nil {
		return nil, err
	}
	return &monitor.Reader{Dinner: f.Live, Now: now, Offset: offset, Show: e.show}, nil
}

// watch compares the readings of a step with its limits. It fails when the
// dinner is not open and when the key names no step; a step that the dinner does
// not have any more has nothing to watch.
func (e *Engine) watch(in WatchCall) (*WatchView, error) {
	r, err := e.reader(in.Dinner, in.Now, in.Offset)
	if err != nil {
		return nil, err
	}
	w, err := r.Watch(in.Key)
	if err != nil {
		return nil, err
	}
	return &WatchView{Watch: *w, Defer: monitor.Deferral}, nil
}

// controls returns the log of control points, with the CSV beside it, because
// the page saves that file as it is. It fails when the dinner is not open.
func (e *Engine) controls(in ClockCall) (*ControlsView, error) {
	r, err := e.reader(in.Dinner, in.Now, in.Offset)
	if err != nil {
		return nil, err
	}
	log := r.Log()
	return &ControlsView{Points: log.Points, CSV: log.CSV(), Rules: log.RulesInWords(), Made: log.Made, Defer: monitor.Deferral}, nil
}

// labels returns a label for each thing that the dinner makes and keeps. It
// fails when the dinner is not open.
func (e *Engine) labels(in ClockCall) (*LabelsView, error) {
	r, err := e.reader(in.Dinner, in.Now, in.Offset)
	if err != nil {
		return nil, err
	}
	return &LabelsView{Labels: r.Labels(), Defer: monitor.LabelDeferral}, nil
}

// each returns a list with every element written by a function. It is never nil,
// because the page reads [] and not null.
func each[From, To any](in []From, write func(From) To) []To {
	out := make([]To, 0, len(in))
	for _, x := range in {
		out = append(out, write(x))
	}
	return out
}

// list returns a copy of a list that is never nil: [] and not null in JSON.
func list[T any](in []T) []T { return append([]T{}, in...) }
