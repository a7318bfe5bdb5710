package engine

import (
	"hobside/internal/dinner"
	"hobside/internal/larder"
	"hobside/internal/monitor"
	"hobside/internal/safety"
)

// reader is an open dinner at a moment, as this cook reads it.
func (e *Engine) reader(id string, now int64, offset int) (*monitor.Reader, error) {
	f, err := e.opened(id)
	if err != nil {
		return nil, err
	}
	return &monitor.Reader{Dinner: f.Live, Now: now, Offset: offset, Show: e.show}, nil
}

// watch says how the readings of a step stand.
func (e *Engine) watch(in WatchCall) (*WatchView, error) {
	r, err := e.reader(in.Dinner, in.Now, in.Offset)
	if err != nil {
		return nil, err
	}
	w, err := r.Watch(in.Key)
	if err != nil {
		return nil, err
	}
	return &WatchView{Kind: w.Kind, State: w.State, Line: w.Line,
		Lines:  each(w.Lines, func(l monitor.Line) WatchLine { return WatchLine(l) }),
		Asks:   each(w.Asks, func(a monitor.Ask) AskView { return AskView(a) }),
		Points: each(w.Points, func(p monitor.Point) PointView { return PointView(p) }),
		Curve:  each(w.Curve, func(c monitor.Curve) CurveView { return CurveView(c) }),
		Marks:  each(w.Marks, func(m monitor.Mark) MarkView { return MarkView(m) }),
		Ways:   each(w.Ways, func(w monitor.Way) WayView { return WayView{Text: w.Text, Meets: w.Meets, Lines: list(w.Lines)} }),
		Vessel: w.Vessel, Said: w.Said, Assumed: list(w.Assumed), Defer: monitor.Deferral}, nil
}

// controls writes the log of control points.
func (e *Engine) controls(in ClockCall) (*ControlsView, error) {
	r, err := e.reader(in.Dinner, in.Now, in.Offset)
	if err != nil {
		return nil, err
	}
	log := r.Log()
	v := &ControlsView{CSV: log.CSV(), Rules: rulesInWords(log.Rules), Made: log.Made, Defer: monitor.Deferral,
		Points: each(log.Points, func(p monitor.Control) ControlView {
			k, _ := dinner.ParseKey(p.Key)
			return ControlView{Key: p.Key, At: StepPlace{k.Card, k.Batch, k.Step}, Card: p.Card, Title: p.Title, Batch: p.BatchText(), Number: p.Number, What: p.What, Step: p.Step,
				Limits: each(p.Limits, func(l monitor.Line) WatchLine { return WatchLine(l) }), State: p.State, Say: p.Say(),
				Entries: each(p.Entries, func(en monitor.Entry) EntryView { return EntryView(en) })}
		})}
	return v, nil
}

// rulesInWords names the limits that a log is compared with.
func rulesInWords(r safety.Rules) string {
	switch r {
	case safety.US:
		return "US FDA Food Code and USDA FSIS guidance"
	case safety.UK:
		return "UK and EU law, and the advice of the UK Food Standards Agency"
	}
	return "no rule set: the kitchen names none"
}

// labels writes a label for each thing that is made.
func (e *Engine) labels(in ClockCall) (*LabelsView, error) {
	r, err := e.reader(in.Dinner, in.Now, in.Offset)
	if err != nil {
		return nil, err
	}
	return &LabelsView{Defer: monitor.LabelDeferral, Labels: each(r.Labels(), func(l monitor.Label) LabelView {
		whose := "of the fourteen of the EU and UK"
		if l.List == larder.US {
			whose = "of the nine of the US"
		}
		return LabelView{Key: l.Key, Name: l.Name, Amount: l.Amount, Done: l.Made != "", Made: l.Made, By: l.By, Use: l.Use, Basis: l.Basis, Keeps: keeps(l.Keeps),
			Carries: list(l.Carries), May: list(l.May), NotAssessed: list(l.NotAssessed), Without: list(l.Without), List: whose}
	})}, nil
}

// each writes every element of a list. It is never nil: the page reads [], not
// null.
func each[From, To any](in []From, write func(From) To) []To {
	out := make([]To, 0, len(in))
	for _, x := range in {
		out = append(out, write(x))
	}
	return out
}

// list is a list that is never nil.
func list[T any](in []T) []T { return append([]T{}, in...) }
