package plan

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/kitchen"
)

const (
	mostChanges = 6
	mostMore    = 4 // of one kind of equipment
)

// onTime is the effect of most changes.
const onTime = "every course on time"

// Free returns changes that make a blocked dinner possible, each by itself, those that
// change least first, and of each kind the smallest. Each was tried.
func (in Input) Free(b *Blocked) []Change {
	in.explode()
	f := &freeing{in: in, b: b}
	if len(b.Lacking) > 0 {
		f.lacking()
	} else {
		f.all()
	}
	slices.SortStableFunc(f.found, func(x, y Change) int { return cmp.Compare(x.cost, y.cost) })
	return f.found[:min(mostChanges, len(f.found))]
}

// freeing is a search for changes.
type freeing struct {
	in    Input
	b     *Blocked
	first Change // what each change needs as well
	found []Change
}

// try plans with a change. It returns the plan and records the change, or returns nil.
func (f *freeing) try(c Change) *Plan {
	pl := f.plan(c)
	if pl != nil {
		f.add(c, pl)
	}
	return pl
}

// plan plans with a change, nil where there is no plan.
func (f *freeing) plan(c Change) *Plan {
	changed := f.in.With(c)
	changed.Placements = 1
	pl, _ := changed.best()
	return pl
}

// add records a change that was tried.
func (f *freeing) add(c Change, pl *Plan) {
	if f.first.Text != "" {
		c.Text = f.first.Text + ", and " + c.Text
		c.Do = slices.Concat(f.first.Do, c.Do)
	}
	c.Effect = cmp.Or(c.Effect, onTime) + f.in.otherwise(pl)
	f.found = append(f.found, c)
}

// all tries every kind of change.
func (f *freeing) all() {
	f.ways()
	f.keeps()
	if f.b.large {
		f.covers()
		return
	}
	f.equipment()
	if !f.b.always { // more time changes nothing where loads wait for each other
		f.cook()
		f.hours()
		f.serve()
	}
	if len(f.found) == 0 {
		f.together()
	}
	f.covers()
}

// lacking tries the equipment that the kitchen lacks, alone and with other changes.
func (f *freeing) lacking() {
	var c Change
	for n := 1; n <= mostMore; n++ {
		c = Change{cost: perPiece * n * len(f.b.Lacking)}
		var things []string
		for _, name := range f.b.Lacking {
			c.Do = append(c.Do, Deed{Do: DoEquipment, Equipment: name, Count: n})
			things = append(things, more(f.in.Kitchen, name, n))
		}
		c.Text = listed(things)
		if f.try(c) != nil {
			break
		}
	}
	f.ways()
	if len(f.found) > 0 {
		return
	}
	with := f.in.With(c)
	_, err := with.best()
	b := new(Blocked)
	if errors.As(err, &b) {
		f.in, f.b, f.first = with, b, c // further changes need it too
		f.all()
	}
}

// How much the kinds of changes change, for their order: each a rough count of the
// minutes that somebody has to do with it. Common practice, no source.
const (
	perWay   = 5
	perEarly = 20 // for an hour
	perKeep  = 60
	perAhead = 40 // a card on another day
	perDay   = 120
	perPiece = 180 // of equipment
	perCook  = 200
	perLater = 3    // for a minute
	perCover = 2000 // for all of them
)

// ways tries the other ways of each card.
func (f *freeing) ways() {
	for _, comp := range f.in.Demand.Components {
		c := comp.Card
		for w := range c.Ways {
			if w+1 != max(1, f.in.Dinner.Ways[c.ID]) && !f.in.begun(c.ID) {
				f.try(Change{Text: c.Title + ": “" + c.Ways[w].Name + "”", Do: []Deed{{Do: DoWay, Card: c.ID, Way: w + 1}}, cost: perWay})
			}
		}
	}
}

// equipment tries more of what is short and of what the blocked steps use.
func (f *freeing) equipment() {
	for _, name := range f.in.candidates(f.b) {
		for n := 1; n <= mostMore; n++ {
			if f.try(Change{Text: more(f.in.Kitchen, name, n), Do: []Deed{{Do: DoEquipment, Equipment: name, Count: n}}, cost: perPiece * n}) != nil {
				break
			}
		}
	}
}

// cook tries one more cook: for the last hours, for the last day, or all the time.
func (f *freeing) cook() {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	open := ax.open(f.in.Kitchen)
	end := f.in.end()
	last := shift{0, end}
	for _, o := range open {
		if o.from < end {
			last = shift{o.from, min(o.to, end)}
		}
	}
	for _, hours := range [...]int{2, 4} {
		if from := last.to - hours*anHour; from > last.from && f.helped(shift{from, last.to}) {
			return
		}
	}
	if !f.helped(last) {
		f.try(Change{Text: "one more cook", Do: []Deed{{Do: DoCook, Count: 1}}, cost: 2 * perCook})
	}
}

// helped tries one more cook for a time.
func (f *freeing) helped(t shift) bool {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	return f.try(Change{Text: "one more cook on " + ax.words(t) + " (" + document.FormatSeconds((t.to-t.from)*bySeconds) + ")", cost: perCook + (t.to-t.from)/4,
		Do: []Deed{{Do: DoCook, Count: 1, Times: []Span{ax.span(t.from, t.to)}}}}) != nil
}

// end returns when the last course goes out.
func (in *Input) end() int {
	end := 0
	for _, c := range in.Dinner.Menu.Courses {
		end = max(end, c.After)
	}
	return end
}

// hours tries to open the kitchen earlier, and a day sooner.
func (f *freeing) hours() {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	open := ax.open(f.in.Kitchen)
	if len(open) == 0 || f.in.Under {
		return
	}
	first := open[0]
	day := ax.reading(first.from).Weekday().String()
	for _, hours := range [...]int{1, 2, 4} {
		if at := first.from - hours*anHour; ax.day(at) == ax.day(first.from) {
			c := Change{Text: fmt.Sprintf("open the kitchen %s earlier on %s", plural(hours, "hour"), day), cost: perEarly * hours,
				Do: []Deed{{Do: DoOpen, Times: []Span{ax.span(at, first.from)}}}}
			if f.try(c) != nil {
				break
			}
		}
	}
	f.sooner(shift{first.from - aDay, first.to - aDay}, first.from)
}

// sooner tries to open the kitchen on the day before its first, if one card's work will
// do for that card alone, and for no longer than there is work.
func (f *freeing) sooner(day shift, usually int) {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	whole := f.narrow(Change{cost: perDay}, day, usually)
	if whole == nil {
		return
	}
	tried := map[string]bool{}
	for i := range whole.pl.Tasks {
		id := whole.pl.Tasks[i].Card
		if whole.pl.Tasks[i].Start >= usually || tried[id] || len(tried) == mostMore {
			continue
		}
		tried[id] = true
		if one := f.narrow(Change{cost: perAhead, Do: []Deed{{Card: id}}}, day, usually); one != nil {
			one.c.Text = "make " + f.in.Dinner.Cards[id].Title + " on " + ax.words(one.day)
			f.add(one.c, one.pl)
			return
		}
	}
	whole.c.Text = "open the kitchen on " + ax.words(whole.day) + " too"
	f.add(whole.c, whole.pl)
}

// A narrowed change opens the kitchen on another day, with the plan that this gives.
type narrowed struct {
	c   Change
	day shift
	pl  *Plan
}

// narrow tries to open the kitchen on a day before its first, and then for no longer than
// there is work. It returns nil where there is no plan.
func (f *freeing) narrow(c Change, day shift, usually int) *narrowed {
	ax := axis{f.in.Serve, f.in.ClockChanges}
	card := ""
	if len(c.Do) > 0 {
		card = c.Do[0].Card
	}
	open := func(t shift) *narrowed {
		c.Do = []Deed{{Do: DoOpen, Card: card, Times: []Span{ax.span(t.from, t.to)}}}
		if pl := f.plan(c); pl != nil {
			return &narrowed{c, t, pl}
		}
		return nil
	}
	long := open(day)
	if long == nil {
		return nil
	}
	used := shift{forEver, -forEver}
	for i := range long.pl.Tasks {
		if t := &long.pl.Tasks[i]; t.Start < usually {
			used = shift{min(used.from, t.Start-anHour/2), max(used.to, t.Free)}
		}
	}
	if used.from > used.to {
		return long
	}
	const mark = 30 // a shift begins and ends on the half hour
	past := func(t int) int { return ((t+ax.serve.Minutes())%mark + mark) % mark }
	used.from -= past(used.from)
	used.to += (mark - past(used.to)) % mark
	if short := open(shift{max(used.from, day.from), min(used.to, day.to)}); short != nil {
		return short
	}
	return long
}

// words writes a time with its day: "Thursday, 16:00–22:00".
func (a axis) words(t shift) string {
	until := a.reading(t.to).Clock()
	if until == "00:00" {
		until = "24:00"
	}
	return a.reading(t.from).Weekday().String() + ", " + a.reading(t.from).Clock() + "–" + until
}

// day returns the day of a minute, 0 for the day of serving.
func (a axis) day(t int) int { return a.reading(t).DaysSince(a.serve) }

// serve tries to serve later.
func (f *freeing) serve() {
	for _, minutes := range [...]int{15, 30, 60, 120} {
		c := Change{Text: fmt.Sprintf("serve %d minutes later", minutes), Effect: "the first course at " + f.in.Serve.Add(minutes).Clock(),
			Do: []Deed{{Do: DoServe, Minutes: minutes, At: strings.Replace(f.in.Serve.Add(minutes).String(), " ", "T", 1)}}, cost: perLater * minutes}
		if f.try(c) != nil {
			return
		}
	}
}

// keeps tries to let results wait longer that the reason says do not wait long enough,
// as far as the plan lets anything wait in such a place. Only the author of a card can
// say that it does, so each says so.
func (f *freeing) keeps() {
	for _, l := range f.b.waits {
		most, ok := mostKept[l.place]
		for minutes := l.within + l.over; ok; minutes = min(most, 2*minutes) {
			minutes = (minutes + markEvery - 1) / markEvery * markEvery
			if minutes > most {
				break
			}
			who := "if its author agrees; the card says " + waits(l.within, l.place)
			if l.usual {
				who = "if its author agrees; the card gives no time, and " + waits(l.within, l.place) + " is the default"
			}
			longer := perKeep * minutes / max(markEvery, l.within) // the looser, the more it changes
			place := l.place
			if place == heldAtHeat || place == "pass" || place == "" {
				place = "hot"
			}
			c := Change{Text: l.name + " may wait " + document.FormatSeconds(minutes*bySeconds) + ", " + who, cost: longer,
				Do: []Deed{{Do: DoKeep, Card: l.step.Card, Step: l.step.Step, Minutes: minutes, Place: place}}}
			if f.try(c) != nil || minutes == most {
				break
			}
		}
	}
}

// mostKept is how long a result may be let wait at most in each place, in minutes: no
// longer than what nobody gave a time for, and half an hour where it is past its best
// soon. Common practice, no source.
var mostKept = map[string]int{heldAtHeat: 30, "hot": 30, "pass": 30, "": 30, "room": roomKeeps, "chilled": coldKeeps}

// together adds equipment piece by piece, each time what the block is short of, for
// a dinner that no single change makes possible.
func (f *freeing) together() {
	b := f.b
	var c Change
	var things []string
	for range mostMore {
		changed := f.in.With(c)
		changed.Placements = 1
		names := changed.candidates(b)
		if len(names) == 0 {
			return
		}
		things = append(things, more(f.in.Kitchen, names[0], 1))
		c.Do = append(c.Do, Deed{Do: DoEquipment, Equipment: names[0], Count: 1})
		c.Text, c.cost = listed(things), c.cost+perPiece
		if f.try(c) != nil {
			return
		}
		changed = f.in.With(c)
		changed.Placements = 1
		_, err := changed.best()
		if b = new(Blocked); !errors.As(err, &b) {
			return
		}
	}
}

// candidates returns the kinds of equipment of which one more might help: those
// that are short, and those that the blocked steps use.
func (in *Input) candidates(b *Blocked) []string {
	var names []string
	add := func(name string) {
		if name != "cooks" && counted(has(in.Kitchen, name)) && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, name := range b.Short {
		add(name)
	}
	for _, s := range b.Steps {
		if c := in.Dinner.Cards[s.Card]; c != nil && s.Step <= len(c.Steps) {
			for _, q := range c.Steps[s.Step-1].Equipment {
				add(q.Name)
			}
		}
	}
	return names
}

// covers finds the largest possible number of covers: by doubling, then by bisection.
func (f *freeing) covers() {
	all := cmp.Or(f.in.Dinner.Covers, f.in.Dinner.Menu.Covers)
	with := func(n int) Change { return Change{Do: []Deed{{Do: DoCovers, Count: n}}} }
	can, cannot := 0, all
	for cannot-can > 1 {
		n := (can + cannot) / 2
		if cannot == all {
			n = min(n, 2*can+1) // small dinners are tried first: they take least time
		}
		if f.plan(with(n)) != nil {
			can = n
		} else {
			cannot = n
		}
	}
	if can > 0 {
		c := with(can)
		c.Text, c.Effect = plural(all-can, "cover")+" fewer", fmt.Sprintf("every course on time for %d", can)
		c.cost = perCover * (all - can) / all
		f.try(c)
	}
}

// otherwise names the cards for which a plan chose another way than the first.
func (in *Input) otherwise(pl *Plan) string {
	text := ""
	for _, w := range pl.Ways {
		if c := in.Dinner.Cards[w.Card]; w.Way > 1 && in.Dinner.Ways[w.Card] == 0 && c != nil {
			text += ", with “" + c.Ways[w.Way-1].Name + "”"
		}
	}
	return text
}

// more names n more of some equipment.
func more(k *kitchen.Kitchen, name string, n int) string {
	word := name
	if name == "hob" && has(k, name) != nil {
		word = "ring"
	}
	switch {
	case n > 1 && has(k, name) == nil:
		return fmt.Sprintf("%d %ss", n, strings.TrimSuffix(word, "s"))
	case n > 1:
		return fmt.Sprintf("%d more %ss", n, strings.TrimSuffix(word, "s"))
	case has(k, name) != nil:
		return "one more " + word
	case strings.ContainsRune("aeiou", rune(name[0])):
		return "an " + name
	}
	return "a " + name
}

// listed joins names: "a hob, an oven and a fridge".
func listed(things []string) string {
	if n := len(things) - 1; n > 0 {
		return strings.Join(things[:n], ", ") + " and " + things[n]
	}
	return strings.Join(things, "")
}

func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
