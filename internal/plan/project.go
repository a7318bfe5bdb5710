package plan

import (
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/plan/rcpsp"
)

// A project is a dinner as activities and lags. Times are minutes after the
// serving time.
type project struct {
	acts     []act
	lags     []lag
	pools    []pool
	open     []shift
	cooks    int
	absent   [][]shift // by cook: when they are not there
	lacks    []lack    // equipment that is not there for a time
	demand   *demand.Demand
	tasks    []Task // one for each step or load, times not yet set
	assumed  []Assumption
	notes    []string
	arcs     []arc
	queues   []queue
	softs    []soft
	handings []handing
	stales   []stale
	kept     map[string]int   // minutes that a card's result may wait for its users
	fetched  map[taking][]int // steps that use an item of a card, from 0
	starts   []int            // of the finished plan
	due      []int            // of each course
	courses  []string         // their names
	end      int              // no activity ends after it
	from     int              // nothing planned starts before it
	ax       axis
	midnight int // at the start of the day of serving
	spans    map[Step]span
	pulls    []int    // by activity: what a minute earlier costs, below 0 what a minute later costs
	pauses   pauses   // of the cooks
	missing  []string // what the kitchen lacks, in words
	lacking  []string // the same by equipment
	old      []string // steps with so many loads that the first exceeds its keeping time, in words
	oldSteps []Step
	oldWaits []longerWait
}

// An act is one activity: the hands-on or the unattended part of a step.
type act struct {
	task   int // index in project.tasks
	wait   bool
	heats  bool // equipment comes to its temperature, or the bench is cleared, before the step begins
	dur    int
	spread spread // of dur
	needs  []rcpsp.Need
	lo, hi int // starts allowed
	held   bool
	start  int
	course int  // 1 + index of the course that sets hi, 0 for none
	usual  bool // no file gives how long its result may wait for the course, or how long it heats up: it is the default
}

// A lag says that activity to starts at least min after activity from starts.
type lag struct {
	from, to, min int
	why           why
}

// An arc says that activity to starts tail minutes after from ends. The tail needs
// no cook and no equipment.
type arc struct{ from, to, tail int }

// A queue says that activity to takes a place after activity from, of another cook.
type queue struct {
	from, to int
	place    string
}

// A why is the reason of a lag, for messages.
type why struct {
	kind  kind
	step  Step // the step whose time it is
	extra int  // minutes
	place string
	usual bool // no card gives extra: it is the default
}

type kind int

const (
	follows  kind = iota // a step waits for another
	keeps                // the result of a step waits no longer
	attached             // the unattended part starts where the hands-on part ends
	ordered              // a card asks for this order with a step of another card
)

// A span is the activities of a step.
type span struct {
	first, last int // activities
	tail        int // minutes after last that need no cook and no counted equipment
	free        int // minutes more that it may take without harm
	head        int // the last activity of its first load; last where there is one load
}

type builder struct {
	*project
	in     *Input
	ways   map[string]int
	units  map[string]map[float64]int // equipment -> temperature -> unit
	hand   int                        // slack behind steps, in per cent of what is wanted
	told   map[string]bool
	spoils map[taking]bool // which steps leave something perishable, filled as it is asked for
	apart  []string        // what some work of the dinner is kept apart from
}

// build turns a dinner into a project with the ways given.
func build(in *Input, d *demand.Demand, ways map[string]int, hand int) *project {
	if in.OnBuild != nil {
		in.OnBuild()
	}
	ax := axis{in.Serve, in.ClockChanges}
	b := &builder{project: &project{demand: d, cooks: len(in.Kitchen.Cooks), absent: in.absent, lacks: in.lacks, ax: ax, open: ax.open(in.Kitchen),
		midnight: ax.at(-in.Serve.Minutes()), spans: map[Step]span{}, kept: map[string]int{}, fetched: map[taking][]int{}},
		in: in, ways: ways, hand: hand, told: map[string]bool{}}
	for i, c := range in.Dinner.Menu.Courses {
		b.due, b.courses = append(b.due, c.After), append(b.courses, c.Name)
		if !c.Struck {
			b.end = max(b.end, c.After+in.lateness(i))
		}
	}
	b.from = b.begins(in)
	b.assign()
	b.apart = b.apartFrom()
	for _, comp := range d.Components {
		for m := range comp.Batches {
			b.batch(comp, m)
		}
	}
	for _, comp := range d.Components {
		b.serve(comp)
		b.uses(comp)
	}
	inner := b.inner()
	for _, comp := range d.Components {
		b.toTable(comp, inner)
	}
	b.platesFirst()
	b.orders()
	b.tellApart()
	b.pauses = pausesOf(in.Kitchen)
	b.pull()
	return b.project
}

// taken reports whether a step belongs to the way chosen for its card.
func (b *builder) taken(c *card.Card, s *card.Step) bool {
	return s.Way == 0 || s.Way == max(1, b.ways[c.ID])
}
