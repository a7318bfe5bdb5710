package monitor

import (
	"maps"
	"slices"
	"sort"
	"strconv"
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
	Rules  safety.Rules // whose limits are compared with, "" for none
	Made   string       // when it was written down, wall clock
}

// RulesInWords names the publications that the log is compared with.
func (l *Log) RulesInWords() string {
	switch l.Rules {
	case safety.US:
		return "US FDA Food Code and USDA FSIS guidance"
	case safety.UK:
		return "UK and EU law, and the advice of the UK Food Standards Agency"
	}
	return "no rule set: the kitchen names none"
}

// A Control is one control point: a step of a batch.
type Control struct {
	Key     string           `json:"key"` // of the step
	At      dinner.StepPlace `json:"at"`
	Card    string           `json:"card"`   // ID
	Title   string           `json:"title"`  // of the card
	Batch   string           `json:"batch"`  // "2 of 3"; "" for the only batch and for one that the dinner does not have any more
	Number  int              `json:"number"` // of the step, as the card shows it
	What    ControlKind      `json:"what"`
	Step    string           `json:"step"`   // its words
	Limits  []Line           `json:"limits"` // as they stand now
	State   LimitState       `json:"state"`  // "" for readings without a limit
	Say     string           `json:"say"`    // what must still be written down, "" for nothing
	Do      string           `json:"do"`     // what the card says to do, where a limit is not met
	Entries []Entry          `json:"entries"`
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
	Event string `json:"event"`
	At    int64  `json:"at"`
	Time  string `json:"time"` // wall clock "2027-06-12 19:42"
	Who   string `json:"who"`
	Text  string `json:"text"`  // "64 °C", "back in the oven"
	Note  bool   `json:"note"`  // words, not a reading
	Back  string `json:"back"`  // "taken back 2027-06-12 19:50, first cook", "" when it counts
	Doubt string `json:"doubt"` // what is asked about it, "" for nothing
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
			p := Control{Key: key, At: k.StepPlace(), Card: k.Card, Title: k.Card, Number: k.Step, What: Reading, Step: "not in the dinner any more", Entries: written[key]}
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
	k, _ := dinner.ParseKey(key)
	p := Control{Key: key, At: k.StepPlace(), Card: comp.Card.ID, Title: comp.Card.Title, Number: s.Number, What: Core, Step: s.Sentence(), Entries: entries}
	if n := len(comp.Batches); n > 1 {
		p.Batch = strconv.Itoa(batch+1) + " of " + strconv.Itoa(n)
	}
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
	p.State, p.Do = w.State, w.Corrective
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
	written := slices.ContainsFunc(p.Entries, func(en Entry) bool {
		return en.Back == "" && en.Note && !strings.HasPrefix(strings.ToLower(en.Text), safety.PourWord)
	})
	if p.State == Failed && !written {
		p.Say = "not met: write down what was done"
	}
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
			en.Text = r.Degrees(*ev.TempC)
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
