package dinner

import (
	"maps"
	"sort"

	"hobside/internal/quantity"
)

// Fold adds up the events of one dinner. The answer depends only on the set of
// events, not on their order or on how often each is given, so devices that
// know the same events show the same thing.
//
// What each kind does:
//
//   - tick, start, finish, timer, way, leave, plate, portion, again, have: the last event
//     on its key counts; covers, guests, serve, plan, shelve: the last event counts; pin: the
//     last event for its file counts. Last is by [Event.Compare].
//   - open: the first counts, so that a dinner's cards never change under a cook.
//   - measure, temperature, note: all are kept, in order.
//   - change: all are kept, in order, and each is done to what those before it left. Of two
//     that say something else of one cook, one thing or one course at one time, the last counts.
//   - delay: the minutes add up; two people who each said "ten more" mean twenty.
//     A step that was put off waits until the time of the last such event.
//   - undo: the event it names has no effect, so what was before it counts again. An
//     undo can itself be undone. An undo whose event is not known yet waits for it.
//
// Of two copies of one ID the one with the lower stamp counts. A device that
// gets an event back from the server puts that copy in the place of its own.
func Fold(events []Event) *State {
	known := distinct(events)
	off := undone(known)
	f := fold{state: empty(), pins: map[string]string{}}
	for _, ev := range known {
		f.state.Dinner = ev.Dinner
		if !off[ev.ID] {
			f.add(ev)
		}
	}
	return f.done()
}

// Standing returns the events that count, once each and in order: those that
// are not taken back. Folding the first of them gives the state as it was.
func Standing(events []Event) []Event {
	known := distinct(events)
	off := undone(known)
	out := make([]Event, 0, len(known))
	for _, ev := range known {
		if !off[ev.ID] && ev.Kind != KindUndo {
			out = append(out, *ev)
		}
	}
	return out
}

// distinct returns the events once each, in order.
func distinct(events []Event) []*Event {
	byID := make(map[string]*Event, len(events))
	for i := range events {
		ev := &events[i]
		if old, ok := byID[ev.ID]; !ok || ev.counts(old) {
			byID[ev.ID] = ev
		}
	}
	out := make([]*Event, 0, len(byID))
	for _, ev := range byID {
		out = append(out, ev)
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Compare(out[j]) < 0 })
	return out
}

// undone finds the events that are taken back. An event is when an undo that
// is not itself taken back names it.
func undone(events []*Event) map[string]bool {
	undos := map[string]*Event{}
	by := map[string][]*Event{} // the undos that name an event, by its ID
	for _, ev := range events {
		if ev.Kind == KindUndo {
			undos[ev.ID] = ev
			by[ev.Undo] = append(by[ev.Undo], ev)
		}
	}
	if len(undos) == 0 {
		return nil
	}
	// An undo is settled once all undos of it are settled; those that nobody undoes
	// come first. Undos that are never settled name each other in a ring, which only
	// forged events can do: they take nothing back.
	open := map[string]int{} // undos of this undo that are not settled yet
	var ready []*Event
	for _, u := range undos {
		open[u.ID] = len(by[u.ID])
		if open[u.ID] == 0 {
			ready = append(ready, u)
		}
	}
	off := map[string]bool{}
	for len(ready) > 0 {
		u := ready[len(ready)-1]
		ready = ready[:len(ready)-1]
		if !off[u.ID] {
			off[u.Undo] = true
		}
		if open[u.Undo]--; open[u.Undo] == 0 {
			ready = append(ready, undos[u.Undo]) // an undo: only undos were counted
		}
	}
	return off
}

// fold is a state being added up.
type fold struct {
	state  *State
	open   *Event
	pins   map[string]string
	covers *Event
	serve  *Event
}

func empty() *State {
	return &State{
		Ticks: map[string]Tick{}, Starts: map[string]Moment{}, Ends: map[string]Moment{},
		Measures: map[string][]Measure{}, Temps: map[string][]Temp{}, Timers: map[string]Timer{},
		Ways: map[string]int{}, Leave: map[string]bool{}, Seats: map[string]int{}, Portions: map[string]quantity.Number{},
		Again: map[string]bool{}, Have: map[string]quantity.Amount{},
		Delays: map[string]int{}, Later: map[string]int64{}, Notes: []Note{}, Changes: []Said{},
	}
}

// add takes one event that counts. Events come in order, so a later one may
// simply write over an earlier.
func (f *fold) add(ev *Event) {
	s := f.state
	switch ev.Kind {
	case KindOpen:
		if f.open == nil && ev.Open != nil {
			f.open = ev
		}
	case KindPin:
		if ev.Open != nil {
			maps.Copy(f.pins, ev.Open.Files)
		}
	case KindCovers:
		f.covers = ev
	case KindGuests:
		f.state.Guests = &ev.Text
	case KindServe:
		f.serve = ev
	case KindTick:
		s.Ticks[ev.On] = Tick{Done: ev.Done, At: ev.Stamp.Wall, Device: ev.Device, Event: ev.ID}
		f.visit(ev.On)
	case KindStart:
		s.Starts[ev.On] = Moment{At: ev.when(), Device: ev.Device, Event: ev.ID}
		f.visit(ev.On)
	case KindFinish:
		s.Ends[ev.On] = Moment{At: ev.when(), Device: ev.Device, Event: ev.ID}
		f.visit(ev.On)
	case KindMeasure:
		if ev.Amount != nil {
			s.Measures[ev.On] = append(s.Measures[ev.On], Measure{Amount: *ev.Amount, At: ev.when(), Device: ev.Device, Event: ev.ID})
		}
	case KindTemperature:
		if ev.TempC != nil {
			s.Temps[ev.On] = append(s.Temps[ev.On], Temp{C: *ev.TempC, At: ev.when(), Device: ev.Device, Event: ev.ID})
		}
	case KindTimer:
		if ev.End == 0 {
			delete(s.Timers, ev.On)
		} else {
			s.Timers[ev.On] = Timer{Start: ev.Start, End: ev.End, Device: ev.Device, Event: ev.ID}
		}
	case KindWay:
		s.Ways[ev.On] = ev.Number
	case KindLeave:
		s.Leave[ev.On] = ev.Done
	case KindPlate:
		s.Seats[ev.On+" "+ev.Text] = ev.Number
	case KindPortion:
		if ev.Amount != nil {
			s.Portions[ev.On] = ev.Amount.Qty
		}
	case KindAgain:
		s.Again[ev.On] = ev.Done
	case KindPlan:
		s.Plan = &Plan{Starts: ev.Plan, At: ev.Stamp.Wall, Device: ev.Device, Event: ev.ID}
	case KindChange:
		s.Changes = append(s.Changes, Said{Do: ev.Do, At: ev.Stamp.Wall, Who: ev.Who, Device: ev.Device, Event: ev.ID})
	case KindShelve:
		s.Shelf = ev.Number
	case KindHave:
		if ev.Amount != nil {
			s.Have[ev.On] = *ev.Amount
		}
	case KindDelay:
		if ev.Done {
			s.Later[ev.On] = ev.Stamp.Wall + int64(ev.Number)*60_000
		} else {
			s.Delays[ev.On] += ev.Number
		}
	case KindNote:
		s.Notes = append(s.Notes, Note{On: ev.On, Text: ev.Text, At: ev.when(), Device: ev.Device, Event: ev.ID})
	}
}

// visit notes the step that the cook was at.
func (f *fold) visit(on string) {
	if k, ok := ParseKey(on); ok && k.Step > 0 {
		f.state.Last = on
	}
}

// done puts together what the opening, the pins and later changes say.
func (f *fold) done() *State {
	s := f.state
	if f.open != nil {
		open := *f.open.Open // a copy: the event keeps what it said
		open.Files = maps.Clone(open.Files)
		if open.Files == nil {
			open.Files = map[string]string{}
		}
		maps.Copy(open.Files, f.pins)
		s.Open, s.Name, s.Covers, s.Serve = &open, f.open.Text, open.Covers, open.Serve
	}
	if f.covers != nil {
		s.Covers = f.covers.Number
	}
	if f.serve != nil {
		s.Serve = f.serve.Text
	}
	return s
}

// when returns the moment an event is about: the one it names, else when it was made.
func (e *Event) when() int64 {
	if e.Start != 0 {
		return e.Start
	}
	return e.Stamp.Wall
}
