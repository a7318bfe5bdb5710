package monitor

import (
	"maps"
	"slices"
	"sort"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/safety"
)

// A Log is the temperature log of a dinner: every control point with its limits
// as they stand, and every entry ever made there.
type Log struct {
	Points []Control
	Rules  safety.Rules // whose limits are compared with
	Made   string       // when it was written down, wall clock
}

// A Control is one control point: a step of a batch.
type Control struct {
	Key            string // of the step
	Card           string // ID
	Title          string // of the card
	Batch, Batches int    // 2 of 3; both 0 for a batch that the dinner does not have any more
	Number         int    // of the step
	What           ControlKind
	Step           string // its words
	Limits         []Line // as they stand now
	State          LimitState
	Unwritten      bool // it failed, and nobody has written down what was done
	Entries        []Entry
}

// A ControlKind is what is controlled at a control point.
type ControlKind string

// What is controlled: a core temperature, a cooling, or readings without a limit.
const (
	Core    ControlKind = "core"
	Cooling ControlKind = "cooling"
	Reading ControlKind = "reading"
)

// An Entry is one line of the log. None is ever removed.
type Entry struct {
	Event string
	At    int64
	Time  string // wall clock "2027-06-12 19:42"
	Who   string
	Text  string // "64 °C", "back in the oven"
	Note  bool   // words, not a reading
	Back  string // "taken back 2027-06-12 19:50, first cook", "" when it counts
	Doubt string // what is asked about it, "" for nothing
}

// Log writes down every step that has a limit or a reading, in the order the
// cards are made, then readings of batches that the dinner does not have any more.
func (r *Reader) Log() *Log {
	out := &Log{Made: r.dateTime(r.Now)}
	written := r.entries()
	seen := map[string]bool{}
	if w := r.Dinner.Worked(); w != nil {
		out.Rules = w.Rules()
		for _, comp := range slices.Backward(w.Demand.Components) {
			for batch := range comp.Batches {
				for i := range comp.Card.Steps {
					key := dinner.StepKey(comp.Card.ID, batch+1, i+1)
					s := &comp.Card.Steps[i]
					if !s.In(w.Way(comp.Card)) || !s.Probed() && !hasReading(written[key]) {
						continue
					}
					seen[key] = true
					out.Points = append(out.Points, r.control(comp, batch, s, key, written[key]))
				}
			}
		}
	}
	for _, key := range slices.Sorted(maps.Keys(written)) {
		if !seen[key] && hasReading(written[key]) {
			k, _ := dinner.ParseKey(key)
			p := Control{Key: key, Card: k.Card, Title: k.Card, Number: k.Step, What: Reading, Step: "not in the dinner any more", Entries: written[key]}
			if w := r.Dinner.Worked(); w != nil {
				if c := w.Files.Card(k.Card); c != nil {
					p.Title = c.Title
				}
			}
			out.Points = append(out.Points, p)
		}
	}
	return out
}

// control writes one control point down, with its limits as they stand.
func (r *Reader) control(comp *demand.Component, batch int, s *card.Step, key string, entries []Entry) Control {
	p := Control{Key: key, Card: comp.Card.ID, Title: comp.Card.Title, Batch: batch + 1, Batches: len(comp.Batches), Number: s.Number,
		What: Core, Step: s.Sentence(), Entries: entries}
	switch {
	case s.Cool.Set:
		p.What = Cooling
	case !s.Probed():
		p.What = Reading
	}
	w, err := r.watch(key, true)
	if err != nil {
		return p
	}
	p.State = w.State
	for _, l := range w.Lines {
		if l.State != None || l.Source != "" { // remarks without a source are for the stove
			p.Limits = append(p.Limits, l)
		}
	}
	for i := range p.Entries {
		for _, a := range w.Asks {
			if p.Entries[i].Event == a.Event {
				p.Entries[i].Doubt = a.Text
			}
		}
	}
	p.Unwritten = p.State == Failed && !slices.ContainsFunc(p.Entries, func(en Entry) bool {
		return en.Back == "" && en.Note && !strings.HasPrefix(strings.ToLower(en.Text), safety.PourWord)
	})
	return p
}

// hasReading reports whether a reading is among the entries.
func hasReading(entries []Entry) bool {
	return slices.ContainsFunc(entries, func(en Entry) bool { return !en.Note })
}

// entries returns all temperatures and notes by step, in order of their moment.
// What was taken back stays, with when and by whom.
func (r *Reader) entries() map[string][]Entry {
	all := r.Dinner.All()
	counts := map[string]bool{}
	for _, ev := range dinner.Standing(all) {
		counts[ev.ID] = true
	}
	undone := map[string]dinner.Event{}
	for _, ev := range all {
		if ev.Kind == dinner.KindUndo {
			undone[ev.Undo] = ev
		}
	}
	out := map[string][]Entry{}
	for _, ev := range all {
		k, ok := dinner.ParseKey(ev.On)
		if !ok || k.Step == 0 {
			continue
		}
		en := Entry{Event: ev.ID, At: ev.Stamp.Wall, Who: r.who(ev.ID, ev.Device)}
		if ev.Start != 0 {
			en.At = ev.Start
		}
		switch {
		case ev.Kind == dinner.KindTemperature && ev.TempC != nil:
			en.Text = r.degrees(*ev.TempC)
		case ev.Kind == dinner.KindNote:
			en.Text, en.Note = ev.Text, true
		default:
			continue
		}
		en.Time = r.dateTime(en.At)
		if !counts[ev.ID] {
			en.Back = "taken back"
			if u, ok := undone[ev.ID]; ok {
				en.Back += " " + r.dateTime(u.Stamp.Wall) + ", " + r.who(u.ID, u.Device)
			}
		}
		out[ev.On] = append(out[ev.On], en)
	}
	for _, entries := range out {
		sort.SliceStable(entries, func(i, j int) bool { return entries[i].At < entries[j].At })
	}
	return out
}
