package plan

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// What the card's language leaves to the plan, in minutes; see the section on
// keeping in content/README.md. Written down here once more on purpose.
const (
	checkedStraightOn = 5
	checkedRoom       = 120
	checkedCold       = 24 * 60
	checkedPlated     = 5
)

// checkedRush finds what goes straight on by the words of its step.
var checkedRush = regexp.MustCompile(`(?i)\b(melt|boil|cook|caramel)\w*\b[^.;:!?]*\b(sugar|syrup|caramel)|\b(melt|dissolv|warm|stir)\w*\b[^.;:!?]*\b(gelatin|agar)|` +
	`\b(whisk|whip|beat)\w*\b[^.;:!?]*\b(white|yolk)|\bfold\w*\b[^.;:!?]*\b(cream|white)|\b(dress|toss)\w*\b[^.;:!?]*\b(leaves|salad)|\b(warm|hot) (bowl|plate)s`)

// inspector checks a plan. It knows the cards, the kitchen and the dinner's
// amounts, and nothing of how the plan was made: no lag, no activity.
type inspector struct {
	in    Input
	pl    *Plan
	d     *demand.Demand
	ways  map[string]int
	tasks map[Step][]Task
	said  []string
	odd   int // starts on earlier days that are off the five-minute marks
}

// breaks lists the rules of the cards and the kitchen that a plan breaks.
func breaks(in Input, pl *Plan) []string { return inspect(in, pl).said }

// inspect checks a plan.
func inspect(in Input, pl *Plan) *inspector {
	x := &inspector{in: in, pl: pl, ways: map[string]int{}, tasks: map[Step][]Task{}}
	for id, w := range in.Dinner.Ways {
		x.ways[id] = w
	}
	for _, w := range pl.Ways {
		x.ways[w.Card] = w.Way
	}
	dinner := in.Dinner
	dinner.Ways = x.ways
	if dinner.Apart == nil {
		dinner.Apart = apartOf(in)
	}
	x.d, _ = demand.Explode(dinner)
	for _, t := range pl.Tasks {
		x.tasks[t.Step] = append(x.tasks[t.Step], t)
	}
	x.courses()
	for _, comp := range x.d.Components {
		for m := range comp.Batches {
			if comp.Batches[m].Factor.Sign() > 0 || comp.Batches[m].Fixed {
				x.batch(comp, m)
			}
		}
		x.served(comp)
		x.taken(comp)
	}
	for key := range x.tasks {
		comp := x.d.ByCard[key.Card]
		if comp == nil || key.Batch > len(comp.Batches) || !x.does(comp.Card, &comp.Card.Steps[key.Step-1]) {
			x.say("%v is planned and is not a step of this dinner", key)
		}
	}
	x.people()
	if !in.Under {
		x.apartFirst()
	}
	x.breaks()
	x.marks()
	x.places()
	x.out()
	x.heats()
	x.orders()
	x.benches()
	slices.Sort(x.said)
	return x
}

func (x *inspector) say(format string, args ...any) {
	x.said = append(x.said, fmt.Sprintf(format, args...))
}

func (x *inspector) does(c *card.Card, s *card.Step) bool {
	return s.Way == 0 || s.Way == max(1, x.ways[c.ID])
}

func (x *inspector) courses() {
	if len(x.pl.Courses) != len(x.in.Dinner.Menu.Courses) {
		x.say("%d courses are planned of %d", len(x.pl.Courses), len(x.in.Dinner.Menu.Courses))
		return
	}
	for i, c := range x.in.Dinner.Menu.Courses {
		at := x.pl.Courses[i]
		if at.Due != c.After || at.At < at.Due || !x.in.Under && at.At != at.Due {
			x.say("course %d is due at %d and planned for %d of %d", i+1, c.After, at.At, at.Due)
		}
	}
}

// before returns the step that step i waits for, −1 for none.
func (x *inspector) before(c *card.Card, i int) int {
	s := &c.Steps[i]
	if s.After.Start {
		return -1
	}
	if k := s.After.Step - 1; k >= 0 && x.does(c, &c.Steps[k]) {
		return k
	}
	for k := i - 1; k >= 0; k-- {
		if x.does(c, &c.Steps[k]) {
			return k
		}
	}
	return -1
}

// ends returns the steps of a card that no step waits for: the card is done with
// them.
func (x *inspector) ends(c *card.Card) []int {
	open := map[int]bool{}
	for i := range c.Steps {
		if x.does(c, &c.Steps[i]) {
			delete(open, x.before(c, i))
			open[i] = true
		}
	}
	var out []int
	for i := range c.Steps {
		if open[i] {
			out = append(out, i)
		}
	}
	// A step that is waited for by one above it in the list was put back.
	return slices.DeleteFunc(out, func(i int) bool {
		for k := range c.Steps {
			if x.does(c, &c.Steps[k]) && x.before(c, k) == i {
				return true
			}
		}
		return false
	})
}

func (x *inspector) kitchenHas(name string) (kitchen.Equipment, bool) {
	for _, e := range x.in.Kitchen.Equipment {
		if e.Name == name {
			return e, true
		}
	}
	return kitchen.Equipment{}, false
}

func (x *inspector) hot(s *card.Step) bool {
	for _, q := range s.Equipment {
		if e, ok := x.kitchenHas(q.Name); ok && e.Heat {
			return true
		} else if std, _ := document.FindEquipment(q.Name); !ok && std.Heat {
			return true
		}
	}
	return false
}

// loads are how many loads a step goes in: the card's, or more where the
// kitchen's own fryer or blender takes less at once.
func (x *inspector) loads(comp *demand.Component, key Step) (int, *card.Step) {
	c := comp.Card
	s := c.Steps[key.Step-1]
	factor := comp.Batches[key.Batch-1].Factor
	n := c.Loads(&s, factor)
	for _, q := range s.Equipment {
		e, ok := x.kitchenHas(q.Name)
		if !ok || e.Load.Unit == nil || s.Load.Unit == nil && e.Heat {
			continue
		}
		less := s
		less.Load = e.Load
		if s.Load.Unit != nil {
			if _, same := quantity.Convert(e.Load.Qty, e.Load.Unit, s.Load.Unit); !same {
				continue
			}
		}
		if k := c.Loads(&less, factor); k > n {
			n, s = k, less
		}
	}
	return n, &s
}

// beside returns how many loads of a step run at one time, by the places it was
// given.
func (x *inspector) beside(t Task, s *card.Step, loads int) int {
	most := loads
	for _, q := range s.Equipment {
		if e, ok := x.kitchenHas(q.Name); ok && e.Places > 0 {
			n := 0
			for _, p := range t.On {
				if p.Equipment == q.Name {
					n++
				}
			}
			most = min(most, n/q.Count)
		}
	}
	return max(1, most)
}

// done returns when a step's first load and its last load are done.
func (x *inspector) done(key Step) (first, last int, ok bool) {
	ts := x.tasks[key]
	if len(ts) == 0 {
		return 0, 0, false
	}
	t := ts[0]
	if len(ts) > 1 || t.Held {
		first, last = ts[0].End, ts[0].End
		for _, t := range ts {
			first, last = min(first, t.End), max(last, t.End)
		}
		return first, last, true
	}
	n, s := x.loads(x.d.ByCard[key.Card], key)
	rounds := (n + x.beside(t, s, n) - 1) / x.beside(t, s, n)
	return t.Start + (t.End-t.Start)/rounds, t.End, true
}

// begins returns when a step begins; held reports whether it has begun.
func (x *inspector) begins(key Step) (at int, held, ok bool) {
	for _, t := range x.tasks[key] {
		if !ok || t.Start < at {
			at, held, ok = t.Start, t.Held, true
		}
	}
	return at, held, ok
}

func (x *inspector) batch(comp *demand.Component, m int) {
	c := comp.Card
	for i := range c.Steps {
		if !x.does(c, &c.Steps[i]) {
			continue
		}
		key := Step{c.ID, m + 1, i + 1}
		x.length(comp, key)
		if k := x.before(c, i); k >= 0 {
			x.inTime(comp, Step{c.ID, m + 1, k + 1}, key, x.keeps(comp, k))
			x.toTable(comp, Step{c.ID, m + 1, k + 1}, key, x.keeps(comp, k))
		}
	}
}

// length checks that a step is planned once for each load, and long enough.
func (x *inspector) length(comp *demand.Component, key Step) {
	ts := x.tasks[key]
	if len(ts) == 0 {
		x.say("%v is not planned", key)
		return
	}
	seen := map[int]bool{}
	attended, total := 0, 0
	for _, t := range ts {
		if t.Held {
			return // as it happened
		}
		if seen[t.Load] || t.Loads != len(ts) && (t.Loads != 0 || len(ts) != 1) || t.Load > t.Loads {
			x.say("%v: load %d of %d among %d", key, t.Load, t.Loads, len(ts))
		}
		seen[t.Load] = true
		if t.Free < t.Start || t.End < t.Free || t.Latest < t.Start {
			x.say("%v: start %d, free %d, end %d, latest %d", key, t.Start, t.Free, t.End, t.Latest)
		}
		attended, total = attended+t.Free-t.Start, total+t.End-t.Start
	}
	n, s := x.loads(comp, key)
	hands, wait := comp.Card.Time(s, comp.Batches[key.Batch-1].Factor)
	people := 1 + len(ts[0].With)
	hands.Low, hands.High = (hands.Low+people-1)/people, (hands.High+people-1)/people
	if attendedByCard(&comp.Card.Steps[key.Step-1]) {
		hands.Low, hands.High = hands.Low+wait.Low, hands.High+wait.High
		wait.Low, wait.High = 0, 0
	}
	if attended*60 < hands.Low {
		x.say("%v: %d attended minutes are planned, it takes %d s", key, attended, hands.Low)
	}
	if n == 1 {
		if (attended-1)*60 >= hands.High && hands.High > 0 || attended > 0 && hands.High == 0 {
			x.say("%v: %d attended minutes are planned, it takes %d s at most", key, attended, hands.High)
		}
		if w := total - attended; w*60 < wait.Low || (w-1)*60 >= wait.High && w > 0 {
			x.say("%v: %d minutes of waiting are planned, it takes %d to %d s", key, w, wait.Low, wait.High)
		}
		return
	}
	rounds := (n + x.beside(ts[0], s, n) - 1) / x.beside(ts[0], s, n)
	if total*60 < rounds*(hands.Low+wait.Low)/n {
		x.say("%v: %d minutes are planned for %d rounds of loads, of %d s each", key, total, rounds, (hands.Low+wait.Low)/n)
	}
}

// keeps returns how long a step's result may wait, and how much longer the step
// itself may take.
func (x *inspector) keeps(comp *demand.Component, i int) int {
	c := comp.Card
	s := &c.Steps[i]
	most := -1
	read := func(all []card.Keep, cold bool) {
		for _, k := range all {
			switch {
			case cold && k.Place != "chilled" && k.Place != "frozen":
			case k.Place == "straight on":
				most = max(most, checkedStraightOn)
			default:
				most = max(most, k.Seconds/60)
			}
		}
	}
	read(s.Keep, false)
	if most < 0 && slices.Contains(x.ends(c), i) {
		read(c.Keeps, false)
	}
	chilled := slices.ContainsFunc(s.Equipment, func(q card.Equipment) bool {
		return slices.Contains([]string{"fridge", "freezer", "blast chiller", "ice bath"}, q.Name)
	})
	switch {
	case most >= 0:
	case x.hot(s):
		most = checkedStraightOn
	case chilled:
		if read(c.Keeps, true); most < 0 {
			most = checkedCold
		}
	case checkedRush.MatchString(s.Sentence()):
		most = checkedStraightOn
	default:
		most = checkedRoom
	}
	if f := s.Wait.Form; (f == document.Range || f == document.Overnight) && !x.hot(s) {
		most += (s.Wait.High - s.Wait.Low) / 60 // it may as well go on
	}
	return most
}

// inTime checks that next begins after of is done and within its keeping time.
func (x *inspector) inTime(comp *demand.Component, of, next Step, keeps int) {
	first, last, ok1 := x.done(of)
	at, held, ok2 := x.begins(next)
	if !ok1 || !ok2 || held {
		return
	}
	if at < last {
		x.say("%v begins at %d, before %v is done at %d", next, at, of, last)
	}
	for _, t := range x.tasks[next] {
		if t.Overdue > 0 && t.Start == at {
			return // the plan reports it
		}
	}
	if at-first > keeps {
		x.say("%v begins at %d: %v was done at %d and keeps %d min", next, at, of, first, keeps)
	}
}

// taken checks what a card takes from other cards.
func (x *inspector) taken(comp *demand.Component) {
	c := comp.Card
	for k, it := range c.Items {
		from := x.d.ByCard[it.Card]
		if from == nil || x.in.Dinner.Leave[c.ID][k+1] {
			continue
		}
		for m := range comp.Batches {
			for _, i := range x.named(c, k+1) {
				next := Step{c.ID, m + 1, i + 1}
				for fm := range from.Batches {
					if !x.givesTo(from, fm, c.ID, comp.Batches[m].Lot, k+1) && it.Save == "" {
						continue
					}
					if it.Save != "" {
						x.takesSaved(from, it.Save, fm, next)
						continue
					}
					for _, e := range x.ends(from.Card) {
						of := Step{from.Card.ID, fm + 1, e + 1}
						x.inTime(from, of, next, x.keeps(from, e))
						x.toTable(comp, of, x.earliest(next, x.named(c, k+1)), x.keeps(from, e))
					}
				}
			}
		}
	}
}

// others returns how long the last step of the plate for everybody takes, for a plate
// that is sent before it.
func (x *inspector) others(plate *demand.Component, u demand.Use) int {
	course := x.in.Dinner.Menu.Courses[u.Course-1]
	at := -1
	for i, p := range course.Plates {
		if p.Card == plate.Card.ID && len(p.For) == 0 {
			return 0
		}
		if len(p.For) == 0 && (at < 0 || !slices.ContainsFunc(course.Plates[:i], func(q menu.Plate) bool { return q.Card == plate.Card.ID })) {
			at = i
		}
	}
	if at < 0 || x.d.ByCard[course.Plates[at].Card] == nil {
		return 0
	}
	ends := x.ends(x.d.ByCard[course.Plates[at].Card].Card)
	for _, t := range x.pl.Tasks {
		if t.Card == course.Plates[at].Card && len(ends) == 1 && t.Step.Step == ends[0]+1 {
			return t.End - t.Start
		}
	}
	return 0
}

// earliest returns the step of some of a batch that begins first.
func (x *inspector) earliest(of Step, steps []int) Step {
	for _, i := range steps {
		other := of
		other.Step = i + 1
		a, _, ok := x.begins(other)
		if b, _, ok2 := x.begins(of); ok && ok2 && a < b {
			of = other
		}
	}
	return of
}

// told returns how long the plan says that a result waits for a course, in minutes.
func (x *inspector) told(of Step, course int) int {
	name := x.in.Dinner.Menu.Courses[course-1].Name
	for _, n := range x.pl.Notes {
		if rest, ok := strings.CutPrefix(n, x.pl.Name(of)+" waits "); ok {
			span, until, _ := strings.Cut(rest, " until ")
			if seconds, ok := document.ParseSeconds(span); ok && strings.HasPrefix(until, name+" goes out") {
				return seconds / 60
			}
		}
	}
	return 0
}

// toTable checks that what a step of a plate goes on with keeps until the plate goes
// out, or is done just before the plating, or that the plan says it waits longer.
func (x *inspector) toTable(plate *demand.Component, of, next Step, keeps int) {
	if x.in.Under || !plate.Card.IsPlate() || keeps >= 24*60 {
		return
	}
	first, last, ok := x.done(of)
	at, _, ok2 := x.begins(next)
	if !ok || !ok2 {
		return
	}
	putDown := 5 + max(5, keeps/3) // straight on, and the time in hand behind a step
	for _, u := range plate.Uses {
		if u.Course == 0 || u.Course > len(x.pl.Courses) || plate.Batches[next.Batch-1].Lot != u.Lot {
			continue
		}
		goes := x.pl.Courses[u.Course-1].At
		if wait := goes - first; wait > keeps && wait > goes-at+putDown+last-first && wait > x.told(of, u.Course)+last-first {
			x.say("%v is done at %d, keeps %d min, and course %d goes out at %d", of, first, keeps, u.Course, goes)
		}
	}
}

// givesTo reports whether a batch is of the lot that a card's batches take.
func (x *inspector) givesTo(from *demand.Component, batch int, by string, of, item int) bool {
	for _, u := range from.Uses {
		if u.By == by && u.Of == of && u.Item == item {
			return u.Lot == from.Batches[batch].Lot
		}
	}
	return true
}

func (x *inspector) takesSaved(from *demand.Component, slug string, batch int, next Step) {
	c := from.Card
	steps := x.ends(c)
	for i := range c.Steps {
		if x.does(c, &c.Steps[i]) && slices.Contains(c.Steps[i].Saves, slug) {
			steps = []int{i}
		}
	}
	for _, s := range c.Saves {
		if s.Slug != slug {
			continue
		}
		most := -1
		for _, k := range s.Keeps {
			most = max(most, k.Seconds/60)
		}
		if most < 0 {
			most = checkedCold
		}
		for _, i := range steps {
			x.inTime(from, Step{c.ID, batch + 1, i + 1}, next, most+x.spanOf(&c.Steps[i]))
		}
	}
}

func (x *inspector) spanOf(s *card.Step) int {
	if f := s.Wait.Form; (f == document.Range || f == document.Overnight) && !x.hot(s) {
		return (s.Wait.High - s.Wait.Low) / 60
	}
	return 0
}

func (x *inspector) named(c *card.Card, item int) []int {
	var out []int
	first := -1
	for i := range c.Steps {
		if !x.does(c, &c.Steps[i]) {
			continue
		}
		if first < 0 {
			first = i
		}
		for _, r := range c.Steps[i].Text {
			if r.Item == item {
				out = append(out, i)
				break
			}
		}
	}
	if len(out) == 0 && first >= 0 {
		out = []int{first}
	}
	return out
}

// served checks that what goes to guests is done when its course is served, and
// within its keeping time.
func (x *inspector) served(comp *demand.Component) {
	for _, u := range comp.Uses {
		if u.Course == 0 || u.Course > len(x.pl.Courses) {
			continue
		}
		at := x.pl.Courses[u.Course-1].At
		for m := range comp.Batches {
			if u.Lot > 0 && comp.Batches[m].Lot != u.Lot {
				continue
			}
			for _, i := range x.ends(comp.Card) {
				key := Step{comp.Card.ID, m + 1, i + 1}
				first, last, ok := x.done(key)
				if !ok || x.tasks[key][0].Held {
					continue
				}
				keeps := x.keeps(comp, i)
				if len(comp.Card.Steps[i].Keep) == 0 && len(comp.Card.Keeps) == 0 {
					keeps = checkedPlated + x.spanOf(&comp.Card.Steps[i]) + x.others(comp, u)
				}
				if last > at {
					x.say("%v is done at %d, after course %d goes out at %d", key, last, u.Course, at)
				}
				if at-first > keeps {
					x.say("%v is done at %d and keeps %d min; course %d goes out at %d", key, first, keeps, u.Course, at)
				}
			}
		}
	}
}
