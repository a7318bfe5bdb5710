package plan

import (
	"maps"
	"slices"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// A Change makes a blocked dinner possible. It was tried: with it there is a plan.
type Change struct {
	Text   string `json:"text"`   // "one more fryer"
	Effect string `json:"effect"` // "every course on time"
	Do     []Deed `json:"do"`     // what carries it out, all of it together

	cost int // how much it changes
}

// What a [Deed] does, and the fields that say how.
const (
	DoWay       = "way"       // make Card in its way Way
	DoEquipment = "equipment" // get Count more of Equipment, in Times or always
	DoCook      = "cook"      // have one more cook in Times, or always; Cook is the name, "" for nobody in particular
	DoOpen      = "open"      // open the kitchen in Times; with Card for that card and what goes into it only
	DoServe     = "serve"     // serve Minutes later, At
	DoCovers    = "covers"    // cook for Count covers
	DoKeep      = "keep"      // let the result of step Step of Card wait for Minutes at Place

	DoAway   = "away"   // Cook is not there in Times
	DoThere  = "there"  // Cook is there in Times after all
	DoOut    = "out"    // Count of Equipment are not there in Times; 0: all are there again
	DoClose  = "close"  // close the kitchen in Times
	DoCourse = "course" // Course goes out Minutes after the serving time
	DoStrike = "strike" // Course is struck where Count is 1; 0: it is served after all
)

// A Deed is one thing to do, in typed values, so that a program can carry it out.
type Deed struct {
	Do        string `json:"do"` // one of the words above: "way", "away", "course"
	Card      string `json:"card,omitempty"`
	Step      int    `json:"step,omitempty"` // 1 + index
	Way       int    `json:"way,omitempty"`  // 1 + index
	Cook      string `json:"cook,omitempty"` // as the kitchen names them
	Equipment string `json:"equipment,omitempty"`
	Course    int    `json:"course,omitempty"` // 1 + index
	Count     int    `json:"count,omitempty"`
	Minutes   int    `json:"minutes,omitempty"`
	Place     string `json:"place,omitempty"` // where it waits, as on a card
	At        string `json:"at,omitempty"`    // "2027-06-12T19:45"
	Times     []Span `json:"times,omitempty"`
}

// A Span is a time on one day.
type Span struct {
	Day  document.When `json:"-"`
	Date string        `json:"date"` // of Day, "2027-06-12"
	From int           `json:"from"` // minutes after midnight
	To   int           `json:"to"`   // may pass 1440; 0: without an end
}

// With returns the input with a change carried out. What the change names and the dinner
// does not have, such as a cook or a course, makes no difference.
func (in Input) With(c Change) Input {
	for _, d := range c.Do {
		in = in.after(d)
	}
	return in
}

// after returns the input with one thing done.
func (in Input) after(d Deed) Input {
	switch d.Do {
	case DoWay:
		in.Dinner.Ways = in.chosen()
		in.Dinner.Ways[d.Card] = d.Way
	case DoServe:
		in.Serve = in.Serve.Add(d.Minutes)
	case DoCovers:
		in.Dinner.Covers = d.Count
		in = in.afresh()
	case DoKeep:
		in = in.keeping(d)
	case DoCourse, DoStrike:
		in.Dinner.Menu, in.Demand = in.moved(d), nil
	}
	if in.Kitchen == nil {
		return in
	}
	switch d.Do {
	case DoEquipment:
		in = in.more(d).afresh()
	case DoCook:
		in = in.helped(d)
	case DoOpen, DoClose:
		in = in.opened(d)
	case DoAway, DoThere:
		in = in.attendance(d)
	case DoOut:
		in = in.lacking(d)
	}
	return in
}

// keeping returns the input with a card on which the result of a step keeps longer.
func (in Input) keeping(d Deed) Input {
	was := in.Dinner.Cards[d.Card]
	if was == nil || d.Step < 1 || d.Step > len(was.Steps) {
		return in
	}
	c := *was
	c.Steps = slices.Clone(c.Steps)
	c.Steps[d.Step-1].Keep = []card.Keep{{Seconds: d.Minutes * bySeconds, Place: d.Place}}
	in.Dinner.Cards = maps.Clone(in.Dinner.Cards)
	in.Dinner.Cards[d.Card] = &c
	in.handles = nil
	return in.afresh()
}

// afresh returns the input without its amounts. Before anything is begun, what is made
// apart is found again too: what keeps longer may be made less often.
func (in Input) afresh() Input {
	in.Demand = nil
	if !in.Under {
		in.Dinner.Apart = nil
	}
	return in
}

// usual returns equipment that the kitchen does not have, as large as the cards
// need it.
func (in *Input) usual(name string, n int) kitchen.Equipment {
	std, _ := document.FindEquipment(name)
	e := kitchen.Equipment{Name: name, Count: n, Places: 1, Heat: std.Heat, Temp: std.Temp}
	switch name {
	case "hob":
		e.Count = 4 * n
	case "fridge", "freezer":
		e.Places = 0 // not counted
	default:
		for _, c := range in.Dinner.Cards {
			for i := range c.Steps {
				for _, q := range c.Steps[i].Equipment {
					if q.Name == name {
						e.Places = max(e.Places, q.Count)
					}
				}
			}
		}
	}
	return e
}

// takes returns a card and all the cards that go into it.
func (in *Input) takes(card string) map[string]bool {
	all := map[string]bool{card: true}
	for more := []string{card}; len(more) > 0; {
		c := in.Dinner.Cards[more[0]]
		more = more[1:]
		for i := 0; c != nil && i < len(c.Items); i++ {
			if id := c.Items[i].Card; id != "" && !all[id] {
				all[id] = true
				more = append(more, id)
			}
		}
	}
	return all
}
