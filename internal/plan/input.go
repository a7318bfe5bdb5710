package plan

import (
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// Input is one dinner in one kitchen. Times are minutes after the serving time of
// the first course, so most are negative.
type Input struct {
	Dinner       demand.Input   // Ways holds the cook's choices; the plan chooses the others
	Demand       *demand.Demand // Dinner exploded with Dinner.Apart set; nil: worked out here
	Kitchen      *kitchen.Kitchen
	Serve        document.When // when the first course goes out, with its date
	ClockChanges []ClockChange // changes of the clocks in the weeks around, in order

	Now      int               // nothing new starts before; read only when Under is set
	Under    bool              // the dinner is under way
	Progress map[Step]Progress // steps that were started or done
	Delays   map[Step]int      // extra minutes of a started step
	Later    map[Step]int      // a postponed step does not start before
	Known    map[Step]int      // the accepted plan's starts, kept where that costs nothing

	crews      crews                     // how work is shared between cooks
	handles    map[string]*card.Handling // which steps handle what others keep away from, by words; filled as it is asked for
	coolings   map[cooling]cooled        // how long food cools; filled as it is asked for
	late       []int                     // by how many minutes each course is late; nil for none
	quick      bool                      // a first schedule is looked for with less effort, for many trials
	ahead      map[string]bool           // the cards that may begin before usually; nil for all
	usually    int                       // when the kitchen first opens for the other cards
	absent     [][]shift                 // by cook: when they are not there; nil where all are there always
	lacks      []lack                    // equipment that is not there for a time
	loose      bool                      // started work may exceed its keeping time; the plan says by how much
	Placements int                       // bound on the effort, in thousands of placements; 0 for the default
	OnBuild    func()                    // called for each project that is built, so that tests can count; nil for none
}

// A Step is one step of one batch.
type Step struct {
	Card  string
	Batch int // 1 + index
	Step  int // 1 + index in Card.Steps
}

// less orders steps the same way on every machine.
func (s Step) less(t Step) bool {
	switch {
	case s.Card != t.Card:
		return s.Card < t.Card
	case s.Batch != t.Batch:
		return s.Batch < t.Batch
	}
	return s.Step < t.Step
}

// Progress is how far a step is.
type Progress struct {
	Begun, Done bool
	Start, End  int // End of a step that is not done is the end of its timer; without one it is at or before Start
}

// A ClockChange is a change of the clocks: at Wall, by the old clock, they are put on
// by so many minutes, or back if it is negative.
type ClockChange struct {
	Wall document.When
	By   int
}
