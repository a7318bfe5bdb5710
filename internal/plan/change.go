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
	DoEquipment = "equipment" // get Count more of Equipment
	DoCook      = "cook"      // have one more cook in Times, or always
	DoOpen      = "open"      // open the kitchen in Times; with Card for that card and what goes into it only
	DoServe     = "serve"     // serve Minutes later, At
	DoCovers    = "covers"    // cook for Count covers
	DoKeep      = "keep"      // let the result of step Step of Card wait for Minutes at Place
)

// A Deed is one thing to do, in typed values, so that a program can carry it out.
type Deed struct {
	Do        string `json:"do"` // "way", "equipment", "cook", "open", "serve", "covers" or "keep"
	Card      string `json:"card"`
	Step      int    `json:"step"` // 1 + index
	Way       int    `json:"way"`  // 1 + index
	Equipment string `json:"equipment"`
	Count     int    `json:"count"`
	Minutes   int    `json:"minutes"`
	Place     string `json:"place"` // where it waits, as on a card
	At        string `json:"at"`    // "2027-06-12T19:45"
	Times     []Span `json:"times"`
}

// A Span is a time on one day.
type Span struct {
	Day  document.When `json:"-"`
	Date string        `json:"date"` // of Day, "2027-06-12"
	From int           `json:"from"` // minutes after midnight
	To   int           `json:"to"`   // may pass 1440
}

// With returns the input with a change carried out.
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
	case DoEquipment:
		in = in.more(d.Equipment, d.Count).afresh()
	case DoCook:
		k := *in.Kitchen
		k.Cooks = slices.Clone(k.Cooks)
		k.Cooks = append(k.Cooks, "one more")
		in.Kitchen = &k
		ax := axis{in.Serve, in.ClockChanges}
		in.helps = nil
		for _, t := range d.Times {
			at := ax.at(t.Day.DaysSince(in.Serve)*aDay - in.Serve.Minutes())
			in.helps = append(in.helps, shift{at + t.From, at + t.To})
		}
	case DoOpen:
		k := *in.Kitchen
		k.Hours = slices.Clone(k.Hours)
		if d.Card != "" {
			usual := axis{in.Serve, in.ClockChanges}.open(&k)
			in.ahead, in.usually = in.takes(d.Card), usual[0].from
		}
		for _, t := range d.Times {
			k.Hours = append(k.Hours, kitchen.Shift{Date: t.Day, From: t.From, To: t.To})
		}
		in.Kitchen = &k
	case DoServe:
		in.Serve = in.Serve.Add(d.Minutes)
	case DoCovers:
		in.Dinner.Covers = d.Count
		in = in.afresh()
	case DoKeep:
		in = in.keeping(d)
	}
	return in
}

// keeping returns the input with a card on which the result of a step keeps longer.
func (in Input) keeping(d Deed) Input {
	c := *in.Dinner.Cards[d.Card]
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

// more returns the input with n more of some equipment.
func (in Input) more(name string, n int) Input {
	k := *in.Kitchen
	k.Equipment = slices.Clone(k.Equipment)
	if i := slices.IndexFunc(k.Equipment, func(e kitchen.Equipment) bool { return e.Name == name }); i >= 0 {
		k.Equipment[i].Count += n
	} else {
		k.Equipment = append(k.Equipment, in.usual(name, n))
	}
	in.Kitchen = &k
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

// span returns a time of the plan as a day and times of day.
func (a axis) span(from, to int) Span {
	day := a.reading(from)
	begins := day.Minutes()
	end := a.reading(to)
	return Span{Day: day, Date: day.String()[:len("2006-01-02")], From: begins, To: end.DaysSince(day)*aDay + end.Minutes()}
}
