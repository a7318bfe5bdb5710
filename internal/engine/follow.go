package engine

import (
	"fmt"

	"hobside/internal/dinner"
	"hobside/internal/monitor"
	"hobside/internal/quantity"
)

// followed is a dinner that the page has open, with the view that it last got. A
// tick changes no amount, so most answers need no new view.
type followed struct {
	*dinner.Live
	view *DinnerView // nil until the opening event is known
}

// open begins to follow a dinner, or begins again: the page opens a dinner anew
// after the engine was restarted. It fails when the call names no dinner.
func (e *Engine) open(in OpenCall) (*Sheet, error) {
	if in.Dinner == "" {
		return nil, fmt.Errorf("open names no dinner")
	}
	f := &followed{Live: dinner.Follow(in.Dinner, &e.cache)}
	f.Count = e.count
	e.dinners[in.Dinner] = f
	return e.take(f, in.Texts, in.Events, true), nil
}

// opened returns a dinner that the page has opened. It fails for any other:
// after a restart of the engine the page must open its dinner again.
func (e *Engine) opened(id string) (*followed, error) {
	f, ok := e.dinners[id]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", id)
	}
	return f, nil
}

// apply adds events to an open dinner. It may be repeated with the same events,
// which then change nothing. It fails when the dinner is not open.
func (e *Engine) apply(in ApplyCall) (*Sheet, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
	}
	return e.take(f, in.Texts, in.Events, false), nil
}

// take adds events and writes the dinner anew when they changed it, or always.
func (e *Engine) take(f *followed, texts map[string]string, events []dinner.Event, always bool) *Sheet {
	texts, damaged := whole(texts)
	changed := f.Take(texts, events)
	sheet := &Sheet{State: f.State(), Damaged: damaged, Written: e.written(f)}
	if f.Worked() != nil && (changed || always) {
		f.view = e.dinnerView(f)
		sheet.Dinner = f.view
	}
	return sheet
}

// written returns the texts of what was weighed and read in a dinner, by event.
func (e *Engine) written(f *followed) map[string]string {
	texts := map[string]string{}
	for _, of := range f.State().Measures {
		for _, m := range of {
			if m.Amount.Unit == nil {
				continue // the text gave none
			}
			texts[m.Event] = quantity.Written(m.Amount)
		}
	}
	reader := monitor.Reader{Show: e.show}
	for _, of := range f.State().Temps {
		for _, t := range of {
			texts[t.Event] = reader.Degrees(t.C)
		}
	}
	return texts
}

// prefs changes how amounts are shown in every later answer. When the call names
// a dinner, the answer is its sheet in the new units. It fails for a system or a
// scale that is not known, with those that are.
func (e *Engine) prefs(in Prefs) (*Sheet, error) {
	show, err := quantity.ParsePrefs(in.System, in.Scale)
	if err != nil {
		return nil, err
	}
	e.show = show
	if in.Dinner == "" {
		return &Sheet{Written: map[string]string{}}, nil
	}
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
	}
	return e.take(f, nil, nil, true), nil
}

// order returns the order list of an open dinner.
func (e *Engine) order(in DinnerCall) (*dinner.OrderList, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
	}
	return f.OrderList(e.show), nil
}

// prep returns the prep list of an open dinner. It goes by the plan that was made last.
func (e *Engine) prep(in DinnerCall) (*dinner.PrepList, error) {
	f, err := e.opened(in.Dinner)
	if err != nil {
		return nil, err
	}
	return f.PrepList(e.show), nil
}
