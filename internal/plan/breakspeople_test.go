package plan

import (
	"regexp"
	"slices"
	"strings"
	"time"
	"unicode"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/larder"
)

// shifts are the kitchen's hours by the calendar, minutes after the serving
// time, for kitchens in which no clock changes.
func (x *inspector) shifts() [][2]int {
	day := func(w document.When) time.Time {
		year, month, day := w.Date()
		return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
	}
	var all [][2]int
	for _, h := range x.in.Kitchen.Hours {
		date := day(x.in.Serve)
		switch {
		case h.ByWeekday:
			for date.Weekday() != h.Weekday {
				date = date.AddDate(0, 0, -1)
			}
		case h.Date.HasDate():
			date = day(h.Date)
		default:
			date = date.AddDate(0, 0, h.Days)
		}
		from := int(date.Sub(day(x.in.Serve))/time.Minute) - x.in.Serve.Minutes()
		all = append(all, [2]int{from + h.From, from + h.To})
	}
	return all
}

// open reports whether the kitchen is open all the time from one minute to
// another.
func (x *inspector) open(from, to int) bool {
	for t := from; t < to; {
		until := t
		for _, s := range x.shifts() {
			if s[0] <= t && t < s[1] {
				until = max(until, s[1])
			}
		}
		if until == t {
			return false
		}
		t = until
	}
	return true
}

// overtime reports whether a note of the plan says that the cooks stay longer.
func (x *inspector) overtime() bool {
	return x.in.Under && slices.ContainsFunc(x.pl.Notes, func(n string) bool { return strings.HasSuffix(n, "longer than the kitchen's hours") })
}

// people checks the cooks: they work within the hours, no more of them than
// there are, none at two things at once, and nothing over heat is left alone.
func (x *inspector) people() {
	var moments []int
	for i, t := range x.pl.Tasks {
		if t.Held {
			continue
		}
		x.crew(t)
		if x.in.Under && t.Start < x.in.Now {
			x.say("%v begins at %d, and it is %d", t.Step, t.Start, x.in.Now)
		}
		if t.Free > t.Start {
			moments = append(moments, t.Start)
			if !x.open(t.Start, t.Free) && !x.overtime() {
				x.say("%v needs hands from %d to %d, outside the hours", t.Step, t.Start, t.Free)
			}
			for _, cook := range append([]int{t.Cook}, t.With...) {
				if cook < 1 || cook > len(x.in.Kitchen.Cooks) {
					x.say("%v is for cook %d of %d", t.Step, cook, len(x.in.Kitchen.Cooks))
				}
			}
		} else if t.Cook != 0 {
			x.say("%v needs nobody and is for cook %d", t.Step, t.Cook)
		}
		s := &x.d.ByCard[t.Card].Card.Steps[t.Step.Step-1]
		if x.hot(s) && !s.Unwatched && !x.open(t.Start, t.End) && !x.overtime() {
			x.say("%v is over heat from %d to %d, outside the hours", t.Step, t.Start, t.End)
		}
		for _, o := range x.pl.Tasks[:i] {
			for _, cook := range append([]int{t.Cook}, t.With...) {
				if !o.Held && cook > 0 && (o.Cook == cook || slices.Contains(o.With, cook)) && o.Start < t.Free && t.Start < o.Free {
					x.say("cook %d is at %v and %v at one time", cook, o.Step, t.Step)
				}
			}
		}
	}
	for _, t := range x.pl.Tasks {
		for _, cook := range append([]int{t.Cook}, t.With...) {
			if !t.Held && cook > 0 && x.gone(cook, t) && !slices.ContainsFunc(x.pl.Notes, func(n string) bool { return strings.Contains(n, "is not there for all of "+x.pl.Name(t.Step)) }) {
				x.say("%v, %d to %d, is for cook %d, who is not there", t.Step, t.Start, t.Free, cook)
			}
		}
	}
	for _, at := range moments {
		n := 0
		for _, t := range x.pl.Tasks {
			if t.Start <= at && at < t.Free {
				n += 1 + len(t.With)
			}
		}
		there := len(x.in.Kitchen.Cooks)
		for _, away := range x.in.absent {
			if slices.ContainsFunc(away, func(s shift) bool { return s.from <= at && at < s.to }) {
				there--
			}
		}
		if n > there {
			x.say("%d pairs of hands are needed at %d, and %d are there", n, at, there)
		}
	}
}

// gone reports whether a cook is not there for all of a task.
func (x *inspector) gone(cook int, t Task) bool {
	return cook <= len(x.in.absent) && slices.ContainsFunc(x.in.absent[cook-1], func(s shift) bool { return s.from < t.Free && t.Start < s.to })
}

// out checks that no more of the kitchen's equipment is in use than is there.
func (x *inspector) out() {
	for _, l := range x.in.lacks {
		e, ok := x.kitchenHas(l.name)
		if !ok || e.Places == 0 {
			continue
		}
		at := []int{l.from}
		for _, t := range x.pl.Tasks {
			if t.Start > l.from && t.Start < l.to {
				at = append(at, t.Start)
			}
		}
		for _, m := range at {
			lacking, used, planned := 0, 0, false
			for _, o := range x.in.lacks {
				if o.name == l.name && o.from <= m && m < o.to {
					lacking += o.count
				}
			}
			for _, t := range x.pl.Tasks {
				for _, p := range t.On {
					if p.Equipment == l.name && t.Start <= m && m < t.End {
						used, planned = used+1, planned || !t.Held
					}
				}
			}
			if planned && used > max(0, e.Count-lacking)*e.Places {
				x.say("%d places of the %s are in use at %d, and %d of %d are out", used, l.name, m, lacking, e.Count)
			}
		}
	}
}

// crew checks how many cooks share a step: as many as its card says at most; where it
// says nothing, all of them for plating, one for anything else.
func (x *inspector) crew(t Task) {
	if t.Batch > len(x.d.ByCard[t.Card].Batches) {
		return // told elsewhere
	}
	c := x.d.ByCard[t.Card].Card
	s := &c.Steps[t.Step.Step-1]
	most := s.Cooks
	if hands, _ := c.Time(s, x.d.ByCard[t.Card].Batches[t.Batch-1].Factor); most == 0 {
		most = 1
		if hands.High > 3*60 && (s.Serve || slices.Contains(x.ends(c), t.Step.Step-1)) && c.Makes.Unit != nil && c.Makes.Unit.Symbol == "plate" && !x.hot(s) {
			most = len(x.in.Kitchen.Cooks)
		}
	}
	if n := 1 + len(t.With); n > most {
		x.say("%v has %d cooks, and %d may share it", t.Step, n, most)
	}
	for i, cook := range t.With {
		if cook == t.Cook || slices.Contains(t.With[:i], cook) {
			x.say("%v has cook %d twice", t.Step, cook)
		}
	}
}

// checkedMoving finds waits in which somebody is at the step, by its words.
var checkedMoving = regexp.MustCompile(`(?i)\b(stir|whisk|beat|churn|swirl|baste)\w*\b[^.;:!?]*(until (cold|cool)|constantly|continuously|all the time|the whole time|without (stopping|a pause))`)

// attendedByCard reports whether somebody must be at a step all the time that it waits.
func attendedByCard(s *card.Step) bool {
	return s.Attended || !s.Left && s.Wait.High > 0 && s.Wait.High <= 3600 && checkedMoving.MatchString(s.Sentence())
}

// apartFirst checks that of the plates of a course those for guests who can't have
// something are sent first.
func (x *inspector) apartFirst() {
	for _, course := range x.in.Dinner.Menu.Courses {
		var all *Task // the last step of the plate for everybody
		for _, plate := range course.Plates {
			var last *Task
			for i := range x.pl.Tasks {
				if t := &x.pl.Tasks[i]; t.Card == plate.Card && !t.Held && x.d.ByCard[t.Card] != nil && slices.Equal(x.ends(x.d.ByCard[t.Card].Card), []int{t.Step.Step - 1}) {
					last = t
				}
			}
			if len(plate.For) == 0 {
				all = last
			} else if all != nil && last != nil && last.Start > all.Start {
				x.say("%v is sent at %d, after %v at %d", last.Step, last.Start, all.Step, all.Start)
			}
		}
	}
}

// breaks checks that nobody works longer without a break than the kitchen allows,
// unless the plan says so.
func (x *inspector) breaks() {
	off, most := 15, 150 // assumed where a kitchen gives none
	if b := x.in.Kitchen.Breaks; b.Per > 0 {
		off, most = max(1, b.Minutes), b.Per
	}
	for cook, name := range x.in.Kitchen.Cooks {
		busy := map[int]bool{}
		first, last := forEver, -forEver
		for _, t := range x.pl.Tasks {
			if (t.Cook == cook+1 || slices.Contains(t.With, cook+1)) && !t.Held {
				for m := t.Start; m < t.Free; m++ {
					busy[m] = true
				}
				first, last = min(first, t.Start), max(last, t.Free)
			}
		}
		from, before := first, first-1 // the first minute of the work, and the last so far
		for m := first; m < last; m++ {
			if !busy[m] {
				continue
			}
			if m-before-1 >= off {
				from = m
			}
			before = m
			if m+1-from > most && !slices.ContainsFunc(x.pl.Notes, func(n string) bool { return strings.HasPrefix(n, name+" works from "+x.pl.Clock(from)+" to ") }) {
				x.say("%s works from %d to %d without a break", name, from, m+1)
				break
			}
		}
	}
}

// marks counts the steps on earlier days that start off the five-minute marks.
func (x *inspector) marks() {
	for _, t := range x.pl.Tasks {
		if w := x.pl.Reading(t.Start); w.DaysSince(x.in.Serve) < 0 && w.Minutes()%5 != 0 {
			x.odd++
		}
	}
}

// places checks the equipment: a step has all the places it takes up, each place
// holds one thing at a time, and one oven has one temperature.
func (x *inspector) places() {
	for i, t := range x.pl.Tasks {
		s := &x.d.ByCard[t.Card].Card.Steps[t.Step.Step-1]
		seen := map[Place]bool{}
		for _, p := range t.On {
			at := Place{Equipment: p.Equipment, Unit: p.Unit}
			e, ok := x.kitchenHas(p.Equipment)
			if !ok || seen[at] || p.Unit < 1 || p.Unit > e.Count*e.Places {
				x.say("%v is on %s %d, of %d", t.Step, p.Equipment, p.Unit, e.Count*e.Places)
			}
			seen[at] = true
		}
		if t.Held {
			continue
		}
		for _, q := range s.Equipment {
			e, ok := x.kitchenHas(q.Name)
			cold := q.Name == "fridge" || q.Name == "freezer"
			if !ok || e.Places == 0 || cold && !strings.Contains(q.Words, "shel") { // it takes a part of a shelf
				continue
			}
			n := 0
			for _, p := range t.On {
				if p.Equipment != q.Name {
					continue
				}
				n++
				if e.Temp && (p.HasTemp != q.HasTemp || p.TempC != q.TempC) {
					x.say("%v wants the %s at %g °C and it says %g", t.Step, q.Name, q.TempC, p.TempC)
				}
			}
			if q.Name == "hob" && n != q.Count {
				x.say("%v has %d rings: one pan takes %d, load by load", t.Step, n, q.Count)
			}
			if n < q.Count || n%q.Count != 0 {
				x.say("%v takes up %d places of the %s and has %d", t.Step, q.Count, q.Name, n)
			}
		}
		for _, o := range x.pl.Tasks[:i] {
			if o.Start >= t.End || t.Start >= o.End || o.Held {
				continue
			}
			x.together(o, t)
		}
	}
}

// checkedHeat is how long equipment takes to change its temperature where the kitchen
// does not say, in minutes.
var checkedHeat = map[string]int{"oven": 15, "fryer": 10, "hot cupboard": 15, "water bath": 20}

// heats checks that equipment with a temperature has the time to come to it: since the
// kitchen opened, and since it was at another.
func (x *inspector) heats() {
	for i, t := range x.pl.Tasks {
		for _, p := range t.On {
			e, _ := x.kitchenHas(p.Equipment)
			minutes := checkedHeat[p.Equipment]
			if e.HotIn > 0 {
				minutes = e.HotIn
			}
			if !e.Temp || !p.HasTemp || minutes == 0 || t.Held || t.Load > 1 || x.in.Under && x.in.Known[t.Step]-minutes < x.in.Now {
				continue
			}
			c := x.d.ByCard[t.Card].Card
			own := Step{t.Card, t.Batch, x.before(c, t.Step.Step-1) + 1} // its card says how it follows that
			if own.Step > 0 && slices.ContainsFunc(c.Steps[own.Step-1].Equipment, func(q card.Equipment) bool { return q.Name == p.Equipment && q.HasTemp }) {
				continue
			}
			if !x.open(t.Start-minutes, t.Start) && !x.overtime() {
				x.say("%v is in the %s at %d, which takes %d minutes to heat up", t.Step, p.Equipment, t.Start, minutes)
			}
			for k, o := range x.pl.Tasks {
				for _, q := range o.On {
					if k != i && q.Equipment == p.Equipment && (q.Unit-1)/e.Places == (p.Unit-1)/e.Places && q.HasTemp && q.TempC != p.TempC && o.End > t.Start-minutes && o.Start < t.Start && !o.Held {
						x.say("%v is in the %s at %d, and %v at another temperature until %d", t.Step, p.Equipment, t.Start, o.Step, o.End)
					}
				}
			}
		}
	}
}

// together checks two tasks that run at the same time.
func (x *inspector) together(a, b Task) {
	for _, p := range a.On {
		for _, q := range b.On {
			if p.Equipment != q.Equipment {
				continue
			}
			e, _ := x.kitchenHas(p.Equipment)
			if p.Unit == q.Unit {
				x.say("%v and %v are both on %s %d", a.Step, b.Step, p.Equipment, p.Unit)
			}
			if e.Temp && e.Places > 0 && (p.Unit-1)/e.Places == (q.Unit-1)/e.Places && p.HasTemp && q.HasTemp && p.TempC != q.TempC {
				x.say("%v at %g °C and %v at %g °C share %s %d", a.Step, p.TempC, b.Step, q.TempC, p.Equipment, 1+(p.Unit-1)/e.Places)
			}
		}
	}
}

// orders checks that steps keep the order that their cards ask for with other cards.
func (x *inspector) orders() {
	for _, comp := range x.d.Components {
		for i, s := range comp.Card.Steps {
			for _, o := range s.Order {
				for key := range x.tasks {
					other := x.d.ByCard[key.Card]
					if other == nil || other == comp || !x.ordered(o, other.Card, key.Step-1) {
						continue
					}
					for m := range comp.Batches {
						own := Step{comp.Card.ID, m + 1, i + 1}
						if o.Before {
							x.follows(own, key)
						} else {
							x.follows(key, own)
						}
					}
				}
			}
		}
	}
}

// ordered reports whether an order is with a step of a card, by its words.
func (x *inspector) ordered(o card.Order, c *card.Card, step int) bool {
	if o.With != "" {
		return x.carries(c, step, o.With)
	}
	title := strings.ToLower(strings.Join(strings.FieldsFunc(c.Title, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) }), "-"))
	return (o.Card == c.ID || o.Card == title) && (o.Step == 0 || o.Step == c.Steps[step].Number)
}

// carries reports whether a step uses, or goes on with, what has something in it: by the
// foods bought for its card and for the cards it is made of.
func (x *inspector) carries(c *card.Card, step int, words string) bool {
	avoid, _ := larder.Understand(words)
	var in func(c *card.Card, it card.Item) bool
	in = func(c *card.Card, it card.Item) bool {
		if from := x.in.Dinner.Cards[it.Card]; from != nil && it.Save == "" {
			return slices.ContainsFunc(from.Items, func(of card.Item) bool { return in(from, of) })
		}
		return avoid.Of(it.Name, nil).Sure
	}
	for i := step; i >= 0; i = x.before(c, i) {
		for _, r := range c.Steps[i].Text {
			if r.Item > 0 && in(c, c.Items[r.Item-1]) {
				return true
			}
		}
	}
	return false
}

// follows checks that a step begins when another is done.
func (x *inspector) follows(of, next Step) {
	_, last, ok1 := x.done(of)
	at, held, ok2 := x.begins(next)
	if ok1 && ok2 && !held && at < last {
		x.say("%v begins at %d, and %v comes first and is done at %d", next, at, of, last)
	}
}

// checkedClearing is how long a bench is cleared before work kept apart, in minutes.
const checkedClearing = 10

// benches checks that nobody works with something while, or shortly before, other work is
// kept apart from it, and that the two share no equipment.
func (x *inspector) benches() {
	for _, t := range x.pl.Tasks {
		c := x.d.ByCard[t.Card].Card
		s := &c.Steps[t.Step.Step-1]
		for _, from := range append(slices.Clone(c.Apart), s.Apart...) {
			for _, o := range x.pl.Tasks {
				if t.Held || o.Held || !x.carries(x.d.ByCard[o.Card].Card, o.Step.Step-1, from) {
					continue
				}
				clear := checkedClearing
				if x.in.Under && x.in.Known[t.Step]-clear < x.in.Now || t.Load > 1 {
					clear = 0
				}
				if t.Free > t.Start && o.Free > o.Start && o.Start < t.Free && o.Free > t.Start-clear {
					x.say("%v is kept apart from %s at %d to %d, and %v is worked on at %d to %d", t.Step, from, t.Start, t.Free, o.Step, o.Start, o.Free)
				}
				for _, q := range s.Equipment {
					if x.d.ByCard[o.Card].Card.Steps[o.Step.Step-1].Uses(q.Name) && !slices.Contains([]string{"fridge", "freezer", "hob"}, q.Name) && o.Start < t.End && o.End > t.Start {
						x.say("%v is kept apart from %s in the %s, with %v", t.Step, from, q.Name, o.Step)
					}
				}
			}
		}
	}
}
