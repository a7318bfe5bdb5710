package dinner

import (
	"encoding/json"
	"maps"
	"slices"

	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/library"
)

// A Live is one dinner being followed: its events, the texts they pin, and what
// follows from them. It is not for use by two goroutines at once.
type Live struct {
	ID string

	// Count, where set, is told of every explosion of the dinner and of every
	// project built for its plan. Tests hold the numbers to their budget.
	Count func(Work)

	cache   *library.Cache
	texts   map[string]string // revision -> text
	events  map[string]Event
	changed bool // an event after the opening changed how much is planned
	state   *State
	basis   string // what worked was worked out from
	worked  *Worked
	amounts amounts
	first   firstPlan
	planned *Planned // the last plan made from worked; nil when there is none since

	together []document.Problem // of the pinned files together
}

// Work is a kind of costly work.
type Work string

// What Live.Count is told of.
const (
	Explosion Work = "explosion" // of the dinner into amounts, by package demand
	Project   Work = "project"   // of the dinner into activities, by package plan
)

// Follow begins to follow a dinner. The cache compiles the files it pins, and
// may be shared with other dinners and the library.
func Follow(id string, cache *library.Cache) *Live {
	return &Live{ID: id, cache: cache, texts: map[string]string{}, events: map[string]Event{}, state: Fold(nil)}
}

// Take adds texts, by revision, and events. Events of another dinner are passed
// over; of two copies of an event the later given counts, because it has the
// server's final stamp. It returns whether more changed than marks on steps and
// lines, in which case [Live.Worked] is new.
func (l *Live) Take(texts map[string]string, events []Event) (changed bool) {
	maps.Copy(l.texts, texts)
	for _, ev := range events {
		if ev.Dinner != l.ID {
			continue
		}
		l.changed = l.changed || changesAmounts(&ev) && ev.Kind != KindOpen
		l.events[ev.ID] = ev
	}
	l.state = Fold(l.all())
	if l.state.Open == nil {
		return false
	}
	basis := l.newBasis()
	if l.worked != nil && basis == l.basis {
		return false
	}
	l.work()
	l.basis = basis
	return true
}

// State returns what the events add up to.
func (l *Live) State() *State { return l.state }

// Worked returns what follows from the state. It is nil until the opening event
// is known.
func (l *Live) Worked() *Worked { return l.worked }

// Event returns an event by its ID, or the zero Event.
func (l *Live) Event(id string) Event { return l.events[id] }

// All returns every event of the dinner in order, those that were taken back
// included.
func (l *Live) All() []Event {
	all := l.all()
	slices.SortFunc(all, func(a, b Event) int { return a.Compare(&b) })
	return all
}

func (l *Live) all() []Event {
	all := make([]Event, 0, len(l.events))
	for _, ev := range l.events {
		all = append(all, ev)
	}
	return all
}

// newBasis writes down all that Worked depends on. Two states with the same
// basis have the same amounts.
func (l *Live) newBasis() string {
	have := slices.Sorted(maps.Keys(l.texts))
	s := l.state
	b, _ := json.Marshal([]any{s.Open, s.Covers, s.Guests, s.Serve, s.Ways, s.Leave, s.Seats, s.Portions, s.Again, s.Have, s.Measures, s.onAmounts(), have})
	if l.changed { // what is begun stays as it was planned then
		more, _ := json.Marshal([]any{l.history(), weighedDone(s)})
		b = append(b, more...)
	}
	return string(b)
}

// history lists the events that changed amounts and, among them, the batches by
// key where each was first touched. An event that arrives late may change what was
// planned when a batch was begun, though it changes nothing of the state now.
func (l *Live) history() []string {
	var out []string
	seen := map[string]bool{}
	now := begun(l.state)
	for _, ev := range Standing(l.all()) {
		if k, ok := ParseKey(ev.On); ok && k.isWork() {
			if key := BatchKey(k.Card, k.Batch); now[key] && !seen[key] {
				seen[key] = true
				out = append(out, key)
			}
		}
		if changesAmounts(&ev) {
			out = append(out, ev.ID)
		}
	}
	return out
}

// count tells Count, where it is set.
func (l *Live) count(w Work) {
	if l.Count != nil {
		l.Count(w)
	}
}

// amounts remembers explosions by what they were worked out from: the state as
// it is now and the earlier states that batches were begun in. Only what the
// last working-out used is kept.
type amounts struct {
	known, used map[string]exploded
	apart       demand.Apart // of the newest, the first guess for the next
}
