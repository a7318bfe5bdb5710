package plan

import (
	"slices"

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
	demand   *demand.Demand
	tasks    []Task // one for each step or load, times not yet set
	assumed  []Assumption
	notes    []string
	arcs     []arc
	softs    []soft
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
	missing  []string // what the kitchen lacks, in words
	lacking  []string // the same by equipment
	old      []string // steps with so many loads that the first exceeds its keeping time, in words
	oldSteps []Step
}

// An act is one activity: the hands-on or the unattended part of a step.
type act struct {
	task   int // index in project.tasks
	wait   bool
	dur    int
	spread spread // of dur
	needs  []rcpsp.Need
	lo, hi int // starts allowed
	held   bool
	start  int
	course int // 1 + index of the course that sets hi, 0 for none
}

// A lag says that activity to starts at least min after activity from starts.
type lag struct {
	from, to, min int
	why           why
}

// An arc says that activity to starts tail minutes after from ends. The tail needs
// no cook and no equipment.
type arc struct{ from, to, tail int }

// A why is the reason of a lag, for messages.
type why struct {
	kind  kind
	step  Step // the step whose time it is
	extra int  // minutes
	place string
}

type kind int

const (
	follows  kind = iota // a step waits for another
	keeps                // the result of a step waits no longer
	attached             // the unattended part starts where the hands-on part ends
)

// A span is the activities of a step.
type span struct {
	first, last int // activities
	tail        int // minutes after last that need no cook and no counted equipment
	free        int // minutes more that it may take without harm
}

type builder struct {
	*project
	in    *Input
	ways  map[string]int
	units map[string]map[float64]int // equipment -> temperature -> unit
	hand  int                        // slack behind steps, in per cent of what is wanted
	late  int                        // minutes that courses may be late
	told  map[string]bool
}

// build turns a dinner into a project with the ways given.
func build(in *Input, d *demand.Demand, ways map[string]int, hand, late int) *project {
	if in.OnBuild != nil {
		in.OnBuild()
	}
	ax := axis{in.Serve, in.ClockChanges}
	b := &builder{project: &project{demand: d, cooks: len(in.Kitchen.Cooks), ax: ax, open: ax.open(in.Kitchen),
		midnight: ax.at(-(in.Serve.Hour*60 + in.Serve.Minute)), spans: map[Step]span{}, kept: map[string]int{}, fetched: map[taking][]int{}},
		in: in, ways: ways, hand: hand, late: late, told: map[string]bool{}}
	for i, c := range in.Dinner.Menu.Courses {
		b.due, b.courses = append(b.due, c.After), append(b.courses, c.Name)
		b.end = max(b.end, c.After+in.lateness(i, late))
	}
	b.from = b.begins(in)
	b.assign()
	for _, comp := range d.Components {
		for m := range comp.Batches {
			b.batch(comp, m)
		}
	}
	for _, comp := range d.Components {
		b.serve(comp)
		b.uses(comp)
	}
	b.tellApart()
	return b.project
}

// taken reports whether a step belongs to the way chosen for its card.
func (b *builder) taken(c *card.Card, s *card.Step) bool {
	return s.Way == 0 || s.Way == max(1, b.ways[c.ID])
}

// batch adds one batch of a card: its steps and the lags between them.
func (b *builder) batch(comp *demand.Component, batch int) {
	c, m := comp.Card, comp.Batches[batch]
	if m.Factor.Sign() <= 0 && !m.Fixed {
		return // not needed any more; its number stays reserved
	}
	last := b.lasts(c)
	before := -1
	for i := range c.Steps {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		key := Step{c.ID, batch + 1, i + 1}
		b.lack(key, s)
		b.step(comp, key, s)
		switch {
		case s.After.Start:
		case s.After.Step > 0 && b.taken(c, &c.Steps[s.After.Step-1]):
			b.wait(c, key, s.After.Step-1, Step{c.ID, batch + 1, s.After.Step}, last)
		case before >= 0:
			b.wait(c, key, before, Step{c.ID, batch + 1, before + 1}, last)
		}
		before = i
	}
}

// wait makes a step follow another of its batch.
func (b *builder) wait(c *card.Card, next Step, index int, of Step, last []int) {
	m, place, assumed := b.keeping(c, index, slices.Contains(last, index))
	if assumed {
		b.assume(c.ID, index, m, place)
	}
	b.link(of, next, m, place)
}

// lasts returns the steps of a card that no other step follows, with the way
// chosen.
func (b *builder) lasts(c *card.Card) []int {
	followed := make([]bool, len(c.Steps))
	before := -1
	for i := range c.Steps {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		switch {
		case s.After.Start:
		case s.After.Step > 0 && b.taken(c, &c.Steps[s.After.Step-1]):
			followed[s.After.Step-1] = true
		case before >= 0:
			followed[before] = true
		}
		before = i
	}
	var out []int
	for i := range c.Steps {
		if b.taken(c, &c.Steps[i]) && !followed[i] {
			out = append(out, i)
		}
	}
	return out
}

// link makes next start after of is done, at most so many minutes after.
func (b *builder) link(of, next Step, within int, place string) {
	from, ok1 := b.spans[of]
	to, ok2 := b.spans[next]
	if !ok1 || !ok2 {
		return
	}
	done := b.acts[from.last].dur + from.tail // after the start of from.last
	most := min(within+from.free, forEver/4)
	if most < 0 {
		b.tooOld(of, most-from.free, -from.free, place)
	}
	if b.pastHolding(of, next, from, to, most) {
		return
	}
	b.lags = append(b.lags,
		lag{from.last, to.first, done + b.inHand(of, most), why{kind: follows, step: of}},
		lag{to.first, from.last, -(done + most), why{keeps, of, most, place}})
	b.arcs = append(b.arcs, arc{from.last, to.first, from.tail})
}

// inHand returns the slack that the plan leaves behind a step of uncertain length,
// so that a usual delay moves nothing: a share of how much longer it may take, at
// most a third of the time that its result may wait.
func (b *builder) inHand(of Step, most int) int {
	c := b.demand.ByCard[of.Card].Card
	s := &c.Steps[of.Step-1]
	hands, wait := c.Time(s, b.demand.ByCard[of.Card].Batches[of.Batch-1].Factor)
	likely := hands.High + hands.High/4 - hands.Low
	if b.spans[of].free <= 0 {
		likely += (wait.High - wait.Low) / 4
	}
	if _, done := b.in.Progress[of]; done {
		return 0
	}
	return min(minutes(likely)*b.hand/100, most/3)
}

func (b *builder) assume(id string, index, minutes int, place string) {
	a := Assumption{id, index + 1, minutes, place}
	if !slices.Contains(b.assumed, a) {
		b.assumed = append(b.assumed, a)
	}
}

func (b *builder) note(text string) {
	if !b.told[text] {
		b.told[text] = true
		b.notes = append(b.notes, text)
	}
}

// serve ties a card that goes to guests to the time of its course.
func (b *builder) serve(comp *demand.Component) {
	c := comp.Card
	for _, u := range comp.Uses {
		if u.Course == 0 {
			continue
		}
		at := b.due[u.Course-1]
		for _, i := range b.lasts(c) {
			most, place, assumed := plated, "pass", true
			if m, where, ok := longest(c.Steps[i].Keep); ok {
				most, place, assumed = m, where, false
			} else if m, where, ok := longest(c.Keeps); ok {
				most, place, assumed = m, where, false
			}
			if assumed {
				b.assume(c.ID, i, most, place)
			}
			for m := range comp.Batches {
				sp, ok := b.spans[Step{c.ID, m + 1, i + 1}]
				if ok {
					b.keepsFor(c.ID, most+sp.free)
				}
				if u.Lot != comp.Batches[m].Lot {
					continue
				}
				if !ok || b.acts[sp.last].held {
					continue
				}
				if most+sp.free < 0 {
					b.tooOld(Step{c.ID, m + 1, i + 1}, most, -sp.free, place)
				}
				a := &b.acts[sp.last]
				end := at + b.in.lateness(u.Course-1, b.late) - a.dur - sp.tail
				if end < a.hi {
					a.hi, a.course = end, u.Course
				}
				a.lo = max(a.lo, min(end, end-most-sp.free))
			}
		}
	}
}

// uses makes the steps that use a component or a by-product wait for the steps that
// make it.
func (b *builder) uses(comp *demand.Component) {
	c := comp.Card
	for i, it := range c.Items {
		from := b.demand.ByCard[it.Card]
		if it.Card == "" || from == nil || b.in.Dinner.Leave[c.ID][i+1] {
			continue
		}
		b.fetched[taking{c.ID, i + 1}] = b.naming(c, i+1)
		for _, at := range b.naming(c, i+1) {
			for batch := range comp.Batches {
				next := Step{c.ID, batch + 1, at + 1}
				if it.Save != "" {
					b.takeSaved(from, it.Save, next)
				} else {
					b.takeMade(from, next, lotOf(from, c.ID, comp.Batches[batch].Lot, i+1))
				}
			}
		}
	}
}

// lotOf returns which lot of a component an item uses, 0 for all of them.
func lotOf(from *demand.Component, by string, of, item int) int {
	for _, u := range from.Uses {
		if u.By == by && u.Of == of && u.Item == item {
			return u.Lot
		}
	}
	return 0
}

// keepsFor records how long a card's result may wait; the shortest counts.
func (b *builder) keepsFor(id string, minutes int) {
	if was, ok := b.kept[id]; !ok || minutes < was {
		b.kept[id] = minutes
	}
}

// takeMade makes a step wait for all batches of a component, or of one lot.
func (b *builder) takeMade(from *demand.Component, next Step, lot int) {
	for _, i := range b.lasts(from.Card) {
		m, place, assumed := b.keeping(from.Card, i, true)
		if assumed {
			b.assume(from.Card.ID, i, m, place)
		}
		for batch := range from.Batches {
			of := Step{from.Card.ID, batch + 1, i + 1}
			if sp, ok := b.spans[of]; ok {
				b.keepsFor(from.Card.ID, m+sp.free)
			}
			if lot == 0 || from.Batches[batch].Lot == lot {
				b.link(of, next, m, place)
			}
		}
	}
}

// takeSaved makes a step wait for a by-product: it is there after the step that
// sets it aside, or after the last steps where none says so.
func (b *builder) takeSaved(from *demand.Component, slug string, next Step) {
	c := from.Card
	at := b.lasts(c)
	for i := range c.Steps {
		if b.taken(c, &c.Steps[i]) && slices.Contains(c.Steps[i].Saves, slug) {
			at = []int{i}
		}
	}
	for _, i := range at {
		m, place := coldKeeps, "chilled"
		for _, s := range c.Saves {
			if s.Slug != slug {
				continue
			}
			if kept, where, ok := longest(s.Keeps); ok {
				m, place = kept, where
			} else {
				b.assume(c.ID, i, m, place)
			}
		}
		for batch := range from.Batches {
			b.link(Step{c.ID, batch + 1, i + 1}, next, m, place)
		}
	}
}

// naming returns the steps that name an item, with the way chosen; the first step
// where none does.
func (b *builder) naming(c *card.Card, item int) []int {
	var out []int
	first := -1
	for i := range c.Steps {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		if first < 0 {
			first = i
		}
		if slices.ContainsFunc(s.Text, func(r card.Run) bool { return r.Item == item }) {
			out = append(out, i)
		}
	}
	if len(out) == 0 && first >= 0 {
		out = append(out, first)
	}
	return out
}
