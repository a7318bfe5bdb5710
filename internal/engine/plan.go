package engine

import (
	"fmt"

	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/plan"
)

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

// plan works a dinner back from its serving time. A dinner that can't be done is
// an answer, with the reasons in it. It fails when the dinner is not open, when
// its serving time can't be read, and for a change of the clocks that no clock
// makes.
func (e *Engine) plan(in PlanCall) (*dinner.Schedule, error) {
	f, clock, err := e.clocked(in)
	if err != nil {
		return nil, err
	}
	p, err := f.Plan(clock, in.Fresh)
	if err != nil {
		return nil, err
	}
	return f.Schedule(p, e.show, in.Full), nil
}

// clocked returns the dinner of a call, which must be open, and the clocks of the call.
func (e *Engine) clocked(in PlanCall) (*followed, dinner.PlanClock, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, dinner.PlanClock{}, err
	}
	clock, err := in.clock()
	return f, clock, err
}

// clock returns the clocks of a call. It fails for a change of the clocks that no clock
// makes.
func (in *PlanCall) clock() (dinner.PlanClock, error) {
	clock := dinner.PlanClock{ServeAt: in.ServeAt, Now: in.Now}
	for _, s := range in.ClockChanges {
		wall, wrong := document.ParseWhen(s.Wall)
		if wrong != "" || s.By < -24*60 || s.By > 24*60 {
			return clock, fmt.Errorf("a change of the clocks at %q by %d minutes is not possible", s.Wall, s.By)
		}
		clock.Changes = append(clock.Changes, plan.ClockChange{Wall: wall, By: s.By})
	}
	return clock, nil
}

// ChangeCall asks what a change would do to an open dinner.
type ChangeCall struct {
	PlanCall
	Wish dinner.Wish `json:"wish"`
}

// change returns what a change would do. It changes nothing. It fails as plan does.
func (e *Engine) change(in ChangeCall) (*dinner.Preview, error) {
	f, clock, err := e.clocked(in.PlanCall)
	if err != nil {
		return nil, err
	}
	return f.Preview(clock, in.Wish, e.show)
}

// scene returns who and what is there. It fails as plan does.
func (e *Engine) scene(in PlanCall) (*dinner.Scene, error) {
	f, clock, err := e.clocked(in)
	if err != nil {
		return nil, err
	}
	return f.Scene(clock)
}
