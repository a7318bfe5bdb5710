package dinner

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"unicode/utf8"

	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/plan"
)

// Bounds of what one change may say.
const (
	maxDeeds  = 20
	maxTimes  = 20
	maxThing  = 80           // bytes of a cook's or a thing's name
	maxThings = 100          // cooks, things
	maxMove   = 7 * 24 * 60  // minutes that a course moves, or that something keeps
	maxSpan   = 14 * 24 * 60 // minutes from midnight to the end of a time
)

// onMenu reports whether a deed is one of the menu and its cards. The others are of the
// kitchen.
func onMenu(d plan.Deed) bool {
	return d.Do == plan.DoCourse || d.Do == plan.DoStrike || d.Do == plan.DoKeep
}

// onAmounts returns what the changes of a state say that amounts depend on: what is of
// the menu and its cards, and the equipment that was known of before anything was begun,
// because what is made at once depends on it. Later, batches keep their numbers.
func (s *State) onAmounts() []plan.Deed {
	first := s.firstBegun()
	var out []plan.Deed
	for _, c := range s.Changes {
		for _, d := range c.Do {
			if onMenu(d) || d.Do == plan.DoEquipment && c.At < first {
				out = append(out, d)
			}
		}
	}
	return out
}

// firstBegun returns when the first step was begun, in Unix milliseconds.
func (s *State) firstBegun() int64 {
	first := int64(math.MaxInt64)
	note := func(on string, at int64) {
		if k, ok := ParseKey(on); ok && k.isWork() {
			first = min(first, at)
		}
	}
	for on, t := range s.Ticks {
		if t.Done {
			note(on, t.At)
		}
	}
	for on, m := range s.Starts {
		note(on, m.At)
	}
	for on, m := range s.Ends {
		note(on, m.At)
	}
	return first
}

// inKitchen returns what changes say of the kitchen.
func inKitchen(said []Said) []plan.Deed {
	var out []plan.Deed
	for _, c := range said {
		for _, d := range c.Do {
			if !onMenu(d) {
				out = append(out, d)
			}
		}
	}
	return out
}

// changedMenu explodes a dinner with what was said of its menu and its cards. What is
// made apart depends on the menu as written, so that batches keep their numbers when a
// course is moved or struck under way.
func changedMenu(in plan.Input, said []plan.Deed, guess demand.Apart) exploded {
	early := func(d plan.Deed) bool { return d.Do == plan.DoKeep || d.Do == plan.DoEquipment }
	in = in.With(plan.Change{Do: slices.DeleteFunc(slices.Clone(said), func(d plan.Deed) bool { return !early(d) })})
	var out exploded
	out.input, out.demand, out.problems = plan.Amounts(in, guess)
	courses := slices.DeleteFunc(slices.Clone(said), early)
	if len(courses) == 0 || out.input.Menu == nil {
		return out
	}
	in.Dinner = out.input
	out.input = in.With(plan.Change{Do: courses}).Dinner
	if slices.ContainsFunc(courses, func(d plan.Deed) bool { return d.Do == plan.DoStrike }) {
		out.demand, out.problems = demand.Explode(out.input)
	}
	return out
}

// checkChange returns what is wrong with a change.
func checkChange(e Event) error {
	if len(e.Do) == 0 || len(e.Do) > maxDeeds {
		return fmt.Errorf("a change of %d things: from 1 to %d fit", len(e.Do), maxDeeds)
	}
	for _, d := range e.Do {
		if err := checkDeed(d); err != nil {
			return err
		}
	}
	return nil
}

// checkDeed returns what is wrong with one thing that a change says.
func checkDeed(d plan.Deed) error {
	for _, name := range [...]string{d.Card, d.Cook, d.Equipment, d.Place} {
		if len(name) > maxThing || !utf8.ValidString(name) {
			return fmt.Errorf("a change names %q: over %d bytes, or not UTF-8", clip(name), maxThing)
		}
	}
	rest := d
	rest.Do, rest.Times = "", nil
	named := func(name string) bool { return name != "" && isName(name) }
	var ok bool
	switch d.Do {
	case plan.DoAway, plan.DoThere:
		ok, rest.Cook = named(d.Cook), ""
	case plan.DoCook:
		ok = (d.Cook == "" || isName(d.Cook)) && d.Count >= 0 && d.Count <= 1
		rest.Cook, rest.Count = "", 0
	case plan.DoOut:
		ok = named(d.Equipment) && d.Count >= 0 && d.Count <= maxThings
		rest.Equipment, rest.Count = "", 0
	case plan.DoEquipment:
		ok = named(d.Equipment) && d.Count >= 1 && d.Count <= maxThings
		rest.Equipment, rest.Count = "", 0
	case plan.DoOpen:
		ok, rest.Card = len(d.Times) > 0, ""
	case plan.DoClose:
		ok = len(d.Times) > 0
	case plan.DoCourse:
		ok = d.Course >= 1 && d.Course <= maxPlace && d.Minutes >= -maxMove && d.Minutes <= maxMove && d.Times == nil
		rest.Course, rest.Minutes = 0, 0
	case plan.DoStrike:
		ok = d.Course >= 1 && d.Course <= maxPlace && d.Count >= 0 && d.Count <= 1 && d.Times == nil
		rest.Course, rest.Count = 0, 0
	case plan.DoKeep:
		ok = named(d.Card) && d.Step >= 1 && d.Step <= MaxSteps && d.Minutes >= 0 && d.Minutes <= maxMove && d.Times == nil
		rest.Card, rest.Step, rest.Minutes, rest.Place = "", 0, 0, ""
	case plan.DoWay, plan.DoServe, plan.DoCovers:
		return fmt.Errorf("a change that says %q: that has an event of its own", d.Do)
	default:
		return fmt.Errorf("a change that says %q: that is not known here, the phone may be of a newer release than the server", clip(d.Do))
	}
	if !ok || !bare(rest) {
		return fmt.Errorf("a change says %q with figures that it can't have: say it again", d.Do)
	}
	return checkTimes(d)
}

// bare reports whether a deed holds nothing but its kind.
func bare(d plan.Deed) bool {
	return d.Card == "" && d.Step == 0 && d.Way == 0 && d.Cook == "" && d.Equipment == "" && d.Course == 0 && d.Count == 0 && d.Minutes == 0 && d.Place == "" && d.At == "" && d.Times == nil
}

// checkTimes returns what is wrong with the times of a deed.
func checkTimes(d plan.Deed) error {
	if len(d.Times) > maxTimes {
		return fmt.Errorf("a change at %d times: %d fit", len(d.Times), maxTimes)
	}
	for _, t := range d.Times {
		if _, ok := document.ParseDate(t.Date); !ok {
			return fmt.Errorf("a change on %q, which is not a day", clip(t.Date))
		}
		if t.From < 0 || t.From > 24*60 || t.To < 0 || t.To > maxSpan {
			return errors.New("a change at a time that is not on its day")
		}
		if t.To > 0 && t.To <= t.From {
			return errors.New("a change that ends before it begins: say from when until when")
		}
		if t.To == 0 && d.Do == plan.DoOpen {
			return errors.New("the kitchen opens without a time to close: say until when")
		}
	}
	return nil
}
