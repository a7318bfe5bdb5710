package engine

import (
	"fmt"
	"maps"
	"slices"
	"sort"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// controls writes the log of control points down: every step with a limit or a
// reading, every entry ever made there, what was taken back with it.
func (e *Engine) controls(in ClockCall) (*ControlsView, error) {
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	v := &ControlsView{Points: []ControlView{}, Rules: rulesInWords(f.rules()), Made: stampOf(in.Now, in.Offset), Defer: deferral}
	written := f.written(e, in.Offset)
	seen := map[string]bool{}
	if f.Worked() != nil {
		for _, c := range f.view.Cards {
			for m, batch := range c.Batches {
				for _, s := range batch.Steps {
					k, _ := dinner.ParseKey(s.Key)
					d := f.Worked().Files[k.Card+".md"]
					if d == nil || d.Card == nil || k.Step < 1 || k.Step > len(d.Card.Steps) {
						continue
					}
					step := &d.Card.Steps[k.Step-1]
					if !step.Probed() && !read(written[s.Key]) {
						continue
					}
					seen[s.Key] = true
					p := ControlView{Key: s.Key, Card: c.ID, Title: c.Title, Number: s.Number, What: "core", Step: step.Sentence(), Limits: []WatchLine{}, Entries: written[s.Key]}
					if len(c.Batches) > 1 {
						p.Batch = itoa(m+1) + " of " + itoa(len(c.Batches))
					}
					switch {
					case step.Cool.Set:
						p.What = "cooling"
					case !step.Probed():
						p.What = "reading"
					}
					e.judge(&p, WatchCall{Dinner: in.Dinner, Key: s.Key, Now: in.Now, Offset: in.Offset})
					v.Points = append(v.Points, p)
				}
			}
		}
	}
	for _, key := range slices.Sorted(maps.Keys(written)) { // of batches that the dinner has no more
		if !seen[key] && read(written[key]) {
			k, _ := dinner.ParseKey(key)
			p := ControlView{Key: key, Card: k.Card, Title: k.Card, Number: k.Step, What: "reading", Step: "not in the dinner any more", Limits: []WatchLine{}, Entries: written[key]}
			if d := f.Worked().Files[k.Card+".md"]; d != nil && d.Card != nil {
				p.Title = d.Card.Title
			}
			v.Points = append(v.Points, p)
		}
	}
	for i := range v.Points {
		if v.Points[i].Entries == nil {
			v.Points[i].Entries = []EntryView{}
		}
	}
	v.CSV = controlsCSV(v)
	return v, nil
}

// judge sets a control point's limits as they stand, and what is to be written
// down yet.
func (e *Engine) judge(p *ControlView, call WatchCall) {
	w, err := e.watchAs(call, true)
	if err != nil {
		return
	}
	p.State = w.State
	for _, l := range w.Lines {
		if l.State != "" || l.Source != "" { // asides without a source are for the stove
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
	if p.State != "failed" {
		return
	}
	for i := len(p.Entries) - 1; i >= 0; i-- {
		en := p.Entries[i]
		if en.Back == "" && en.Note && !strings.HasPrefix(strings.ToLower(en.Text), safety.PourWord) {
			return // something was written down about it
		}
	}
	p.Say = "not met: write down what was done"
}

// read says whether a key's entries hold a reading.
func read(entries []EntryView) bool {
	return slices.ContainsFunc(entries, func(en EntryView) bool { return !en.Note })
}

// written gathers temperatures and notes by step, in order of their moment, and
// weights only of steps that have one of those. What was taken back stays, and
// says when and by whom.
func (f *followed) written(e *Engine, offset int) map[string][]EntryView {
	all := f.All()
	stands := map[string]bool{}
	for _, ev := range dinner.Standing(all) {
		stands[ev.ID] = true
	}
	undone := map[string]dinner.Event{}
	for _, ev := range all {
		if ev.Kind == dinner.KindUndo {
			undone[ev.Undo] = ev
		}
	}
	out := map[string][]EntryView{}
	for _, ev := range all {
		k, ok := dinner.ParseKey(ev.On)
		if !ok || k.Step == 0 {
			continue
		}
		en := EntryView{Event: ev.ID, At: ev.Stamp.Wall, Who: f.who(ev.ID, ev.Device)}
		if ev.Start != 0 {
			en.At = ev.Start
		}
		switch {
		case ev.Kind == dinner.KindTemperature && ev.TempC != nil:
			en.Text = safety.Celsius(*ev.TempC)
			if e.show.System == quantity.US {
				en.Text = fahrenheit(*ev.TempC) + " (" + en.Text + ")"
			}
		case ev.Kind == dinner.KindNote:
			en.Text, en.Note = ev.Text, true
		default:
			continue
		}
		en.Time = stampOf(en.At, offset)
		if !stands[ev.ID] {
			en.Back = "taken back"
			if u, ok := undone[ev.ID]; ok {
				en.Back += " " + stampOf(u.Stamp.Wall, offset) + ", " + f.who(u.ID, u.Device)
			}
		}
		out[ev.On] = append(out[ev.On], en)
	}
	for _, entries := range out {
		sort.SliceStable(entries, func(i, j int) bool { return entries[i].At < entries[j].At })
	}
	return out
}

// stampOf writes a moment as a wall clock reads it, to the minute.
func stampOf(ms int64, offset int) string {
	t := wallOf(ms, offset)
	return itoa(t.Year()) + "-" + two(int(t.Month())) + "-" + two(t.Day()) + " " + clockOf(ms, offset)
}

func rulesInWords(r safety.Rules) string {
	switch r {
	case safety.US:
		return "US FDA Food Code and USDA FSIS guidance"
	case safety.UK:
		return "UK and EU law, and the advice of the UK Food Standards Agency"
	}
	return "no rule set: the kitchen names none"
}
