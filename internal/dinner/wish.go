package dinner

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/plan"
)

// A Wish is one thing that a cook says has changed, before it is taken. What it needs
// depends on What; an empty At is now, an empty Until is for the rest of the dinner. Both
// are times of day, "18:00".
type Wish struct {
	What    string `json:"what"` // one of the words below: "goes", "out", "course"
	Cook    string `json:"cook,omitempty"`
	Thing   string `json:"thing,omitempty"`
	Course  int    `json:"course,omitempty"` // 1 + index
	With    int    `json:"with,omitempty"`   // the other course, 1 + index
	Count   int    `json:"count,omitempty"`
	Minutes int    `json:"minutes,omitempty"`
	At      string `json:"at,omitempty"`
	Until   string `json:"until,omitempty"`
	Words   string `json:"words,omitempty"`
}

// What a cook may say.
const (
	Goes     = "goes"     // Cook goes At, until Until
	Comes    = "comes"    // Cook comes, or is back, At
	Joins    = "joins"    // somebody called Words comes to help At, until Until
	Out      = "out"      // Count of Thing are out At, until Until
	Back     = "back"     // all of Thing are there again At
	Borrowed = "borrowed" // Count more of Thing are there At, until Until
	Opens    = "opens"    // the kitchen opens At
	Closes   = "closes"   // the kitchen closes At
	Late     = "late"     // all of service goes out Minutes later; 0: nobody knows how much
	Moves    = "moves"    // Course goes out Minutes later
	Swap     = "swap"     // Course and With change places
	Strike   = "strike"   // Course is not served
	Serve    = "serve"    // Course is served after all
	Covers   = "covers"   // Count covers
	Guest    = "guest"    // Count covers can't have Words
)

// A Draft is an event that carries out a wish: the phone stamps it and sends it.
type Draft struct {
	Kind   Kind        `json:"kind"`
	Number int         `json:"number,omitempty"`
	Text   string      `json:"text,omitempty"`
	Do     []plan.Deed `json:"do,omitempty"`
}

// A proposal is what a wish comes to: its events, or why it can't be said.
type proposal struct {
	events  []Draft
	trouble string
}

// cannot returns a proposal that says why there is none.
func cannot(format string, args ...any) proposal {
	return proposal{trouble: fmt.Sprintf(format, args...)}
}

// change returns a proposal of one change.
func change(do ...plan.Deed) proposal { return proposal{events: []Draft{{Kind: KindChange, Do: do}}} }

// A wishing is a wish at one moment of one dinner.
type wishing struct {
	Wish
	live      *Live
	in        plan.Input
	now       int // minutes after the serving time, as all here
	at, until int // until is plan.Never where the wish gives none
}

// propose returns the events that carry out a wish, or says why it can't be.
func (l *Live) propose(w Wish, in plan.Input, now int) proposal {
	of := &wishing{Wish: w, live: l, in: in, now: now, at: now, until: plan.Never}
	if in.Kitchen == nil || in.Dinner.Menu == nil {
		return cannot("the dinner's menu or kitchen is not on this phone yet: it comes with the next sync")
	}
	near := now
	if !in.UnderWay(now) {
		near = max(now, 0) // before the dinner a time of day is one of the day of serving
	}
	var ok bool
	if w.At != "" {
		if of.at, ok = in.MinuteAt(w.At, near); !ok {
			return cannot("“%s” is not a time of day: write it like 18:00", clip(w.At))
		}
	}
	if w.Until != "" {
		if of.until, ok = in.MinuteAt(w.Until, near); !ok {
			return cannot("“%s” is not a time of day: write it like 18:00", clip(w.Until))
		}
		if of.until <= of.at {
			return cannot("%s is not after %s: say from when until when", of.clock(of.until), of.clock(of.at))
		}
	}
	switch w.What {
	case Goes, Comes, Joins:
		return of.people()
	case Out, Back, Borrowed:
		return of.things()
	case Opens, Closes:
		return of.hours()
	case Late:
		return of.service()
	case Moves, Swap, Strike, Serve:
		return of.courses()
	case Covers:
		if w.Count < 0 || w.Count > maxPlace {
			return cannot("%d covers: give a number from 0 to %d", w.Count, maxPlace)
		}
		if w.Count == in.Dinner.Covers || w.Count == l.worked.Demand.Covers {
			return cannot("there are %d covers already", w.Count)
		}
		return proposal{events: []Draft{{Kind: KindCovers, Number: w.Count}}}
	case Guest:
		return of.guest()
	}
	return cannot("“%s” is not known here: reload the page", clip(w.What))
}

// clock returns a minute as the clock shows it, with the day where that is not today.
func (w *wishing) clock(t int) string {
	at, today := w.in.Reading(t), w.in.Reading(w.now)
	if at.DaysSince(today) != 0 {
		return at.Weekday().String() + " " + at.Clock()
	}
	return at.Clock()
}

// times returns the time of the wish.
func (w *wishing) times() []plan.Span { return []plan.Span{w.in.Span(w.at, w.until)} }

// people proposes who is there.
func (w *wishing) people() proposal {
	if w.What == Joins {
		return w.joins()
	}
	at := slices.Index(w.in.Kitchen.Cooks, w.Cook)
	if at < 0 {
		return cannot("no cook of this kitchen is called “%s”", clip(w.Cook))
	}
	away := w.in.Away(at)
	i := slices.IndexFunc(away, func(t [2]int) bool { return t[0] <= w.at && w.at < t[1] })
	gone := slices.ContainsFunc(away, func(t [2]int) bool { return w.at < t[1] })
	switch {
	case w.What == Goes && i >= 0 && away[i][1] == plan.Never:
		return cannot("%s is away from %s on already", w.Cook, w.clock(away[i][0]))
	case w.What == Goes && i >= 0:
		return cannot("%s comes at %s, and can't go before, at %s: say a later time", w.Cook, w.clock(away[i][1]), w.clock(w.at))
	case w.What == Goes:
		return change(plan.Deed{Do: plan.DoAway, Cook: w.Cook, Times: w.times()})
	case i >= 0:
		return change(plan.Deed{Do: plan.DoThere, Cook: w.Cook, Times: []plan.Span{w.in.Span(w.at, plan.Never)}})
	case gone:
		return cannot("%s is there at %s anyway, and goes later: nothing to change", w.Cook, w.clock(w.at))
	case w.at <= w.now:
		return cannot("%s is there already: nothing to change", w.Cook)
	}
	// A cook of whom nobody said that they are away, and who comes later, is away until then.
	return change(plan.Deed{Do: plan.DoAway, Cook: w.Cook, Times: []plan.Span{w.in.Span(min(w.now, w.at-1), w.at)}})
}

// joins proposes one more cook.
func (w *wishing) joins() proposal {
	name := strings.TrimSpace(w.Words)
	if name != "" && slices.Contains(w.in.Kitchen.Cooks, name) {
		return cannot("%s is one of the cooks: say when %s comes", name, name)
	}
	if name != "" && !isName(name) || len(name) > maxThing {
		return cannot("“%s” can't be a name here: write it without / and #", clip(name))
	}
	for n := 1; name == ""; n++ {
		if helper := strings.TrimSuffix(fmt.Sprintf("helper %d", n), " 1"); !slices.Contains(w.in.Kitchen.Cooks, helper) {
			name = helper
		}
	}
	return change(plan.Deed{Do: plan.DoCook, Cook: name, Count: 1, Times: w.times()})
}

// things proposes what equipment is there.
func (w *wishing) things() proposal {
	n := max(1, w.Count)
	name := strings.TrimSpace(w.Thing)
	if std, ok := document.FindEquipment(name); ok {
		name = std.Name
	}
	i := slices.IndexFunc(w.in.Kitchen.Equipment, func(e kitchen.Equipment) bool { return e.Name == name })
	if w.What == Borrowed {
		if !isName(name) || len(name) > maxThing || n > maxThings {
			return cannot("%d of “%s” can't be borrowed: give a name and up to %d", n, clip(name), maxThings)
		}
		return change(plan.Deed{Do: plan.DoEquipment, Equipment: name, Count: n, Times: w.times()})
	}
	if i < 0 {
		return cannot("the kitchen has no “%s”", clip(name))
	}
	has := w.in.Kitchen.Equipment[i].Count
	out, until := w.in.Out(name, w.at)
	switch {
	case w.What == Back && !w.in.OutFrom(name, w.at):
		return cannot("the %s is not out: nothing to change", thing(name, 1))
	case w.What == Back:
		return change(plan.Deed{Do: plan.DoOut, Equipment: name, Times: []plan.Span{w.in.Span(w.at, plan.Never)}})
	case n > has:
		return cannot("%d %s are out, and the kitchen has %d", n, thing(name, n), has)
	case out == n && until == w.until:
		return cannot("that is said already: %d %s out", n, thing(name, n))
	}
	return change(plan.Deed{Do: plan.DoOut, Equipment: name, Count: n, Times: w.times()})
}

// thing returns equipment as a cook calls it: "ring", "ovens".
func thing(name string, n int) string {
	if name == "hob" {
		name = "ring"
	}
	if n == 1 {
		return name
	}
	return strings.TrimSuffix(name, "s") + "s"
}

// shift returns the kitchen's shift that a cook means: the one that is open, else the next
// one to come, else the last. ok is false for a kitchen without hours.
func (w *wishing) shift() (s [2]int, ok bool) {
	open := w.in.Open()
	if len(open) == 0 {
		return s, false
	}
	i := slices.IndexFunc(open, func(s [2]int) bool { return s[1] > w.now })
	if i < 0 {
		i = len(open) - 1
	}
	return open[i], true
}

// hours proposes when the kitchen opens or closes.
func (w *wishing) hours() proposal {
	shift, ok := w.shift()
	if !ok {
		return cannot("the kitchen's file gives no hours")
	}
	from, to := shift[0], shift[1]
	if w.Until != "" || w.at < w.now {
		return cannot("%s is over: it is %s", w.clock(w.at), w.clock(w.now))
	}
	span := func(do string, from, to int) proposal {
		return change(plan.Deed{Do: do, Times: []plan.Span{w.in.Span(from, to)}})
	}
	switch {
	case w.What == Opens && from <= w.now && w.now < to:
		return cannot("the kitchen is open already, since %s", w.clock(from))
	case w.What == Opens && w.at == from, w.What == Closes && w.at == to:
		return cannot("the kitchen %s at %s anyway", w.What, w.clock(w.at))
	case w.What == Opens && w.at < from:
		return span(plan.DoOpen, w.at, from)
	case w.What == Opens:
		return span(plan.DoClose, from, min(w.at, to))
	case w.at > to:
		return span(plan.DoOpen, to, w.at)
	}
	return span(plan.DoClose, max(w.at, from), to)
}

// service proposes another serving time.
func (w *wishing) service() proposal {
	if w.Minutes < -maxMove || w.Minutes > maxMove {
		return cannot("%d minutes: give a week at most", w.Minutes)
	}
	if w.Minutes == 0 {
		return proposal{}
	}
	if w.Minutes < w.now && w.Minutes < 0 {
		return cannot("service would begin at %s, and it is %s", w.clock(w.Minutes), w.clock(w.now))
	}
	return proposal{events: []Draft{{Kind: KindServe, Text: w.in.Serve.Add(w.Minutes).String()}}}
}

// courses proposes when courses go out, and which.
func (w *wishing) courses() proposal {
	all := w.in.Dinner.Menu.Courses
	if w.Course < 1 || w.Course > len(all) || w.What == Swap && (w.With < 1 || w.With > len(all) || w.With == w.Course) {
		return cannot("the menu has no such course")
	}
	c := all[w.Course-1]
	name := cmp.Or(c.Name, fmt.Sprintf("course %d", w.Course))
	left := 0
	for _, o := range all {
		if !o.Struck {
			left++
		}
	}
	switch {
	case w.What == Serve && !c.Struck:
		return cannot("%s is served anyway: nothing to change", name)
	case w.What == Serve:
		return change(plan.Deed{Do: plan.DoStrike, Course: w.Course})
	case c.Struck:
		return cannot("%s is struck", name)
	case w.What == Strike && left == 1:
		return cannot("%s is the last course: with it nothing is served", name)
	case w.What == Strike:
		return change(plan.Deed{Do: plan.DoStrike, Course: w.Course, Count: 1})
	case w.What == Moves:
		to := c.After + w.Minutes
		switch {
		case w.Minutes == 0 || to < -maxMove || to > maxMove:
			return cannot("%s moves by %d minutes: give some, a week at most", name, w.Minutes)
		case to < w.now:
			return cannot("%s would go out at %s, and it is %s", name, w.clock(to), w.clock(w.now))
		}
		return change(plan.Deed{Do: plan.DoCourse, Course: w.Course, Minutes: to})
	}
	other := all[w.With-1]
	switch {
	case other.Struck:
		return cannot("%s is struck", cmp.Or(other.Name, fmt.Sprintf("course %d", w.With)))
	case other.After == c.After:
		return cannot("%s and %s go out at one time: nothing to change", name, other.Name)
	case min(c.After, other.After) < w.now:
		return cannot("one of them would go out at %s, and it is %s", w.clock(min(c.After, other.After)), w.clock(w.now))
	}
	return change(plan.Deed{Do: plan.DoCourse, Course: w.Course, Minutes: other.After}, plan.Deed{Do: plan.DoCourse, Course: w.With, Minutes: c.After})
}
