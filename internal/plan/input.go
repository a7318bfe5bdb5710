package plan

import (
	"hobside/internal/demand"
	"hobside/internal/menu"
)

// Input is one dinner in one kitchen. All times are minutes after the serving
// time of the menu's first course, so most of them are negative.
type Input struct {
	Dinner       demand.Input // Ways holds what the cook chose; for the other cards the plan chooses
	Kitchen      *menu.Kitchen
	Serve        menu.When     // when the first course goes out, with its date
	ClockChanges []ClockChange // changes of the clocks in the weeks around, in order

	Now      int               // nothing that is not begun starts before; read only if Under is set
	Under    bool              // the dinner is under way: Now counts
	Progress map[Step]Progress // what is begun and done
	Delays   map[Step]int      // of what is begun: minutes that it takes longer
	Later    map[Step]int      // of what is put off: not before
	Known    map[Step]int      // the starts the cooks know, to be kept where it costs nothing

	onTime     []bool // courses that are not late where others are
	loose      bool   // what was begun may wait past its keeping time: the plan says by how much
	Placements int    // effort allowed, in thousands of placements; 0 for the usual
}

// A Step is one step of one batch.
type Step struct {
	Card  string
	Batch int // 1 + index
	Step  int // 1 + index in Card.Steps
}

// less puts steps in an order that is the same everywhere.
func (s Step) less(t Step) bool {
	switch {
	case s.Card != t.Card:
		return s.Card < t.Card
	case s.Batch != t.Batch:
		return s.Batch < t.Batch
	}
	return s.Step < t.Step
}

// Progress is what has become of a step.
type Progress struct {
	Begun, Done bool
	Start, End  int // End of one that is not done: when a timer says it will be, at or before Start when none does
}

// A ClockChange is a change of the clocks: at Wall, by the old clock, they are put on
// by so many minutes, or back if it is negative.
type ClockChange struct {
	Wall menu.When
	By   int
}
