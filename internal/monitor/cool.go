package monitor

import (
	"math"
	"strconv"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/safety"
)

// cooling compares a cooling step's readings with the card's own limit and the
// stages of the kitchen's rules, and forecasts from the readings how it goes on.
func (w *watching) cooling() {
	v := w.out
	v.State = Open
	limits := w.coolLimits()
	var f *safety.Forecast
	if !w.brief {
		f = w.forecast()
	}
	var measured, ahead []safety.Stage
	if len(w.counted) > 0 {
		measured = w.cooled(limits)
	}
	if f != nil {
		ahead = f.Stages(limits)
	}
	met, judged, doubt := 0, 0, false
	for i, l := range limits {
		now, then := safety.Stage{State: safety.NotBegun}, safety.Stage{State: safety.NotJudged}
		if measured != nil {
			now = measured[i]
		}
		if ahead != nil {
			then = ahead[i]
		}
		state := w.stage(l, now, then)
		doubt = doubt || state == Open && (then.State == safety.Failed || then.State == safety.Maybe)
		switch state {
		case Failed:
			v.State, doubt = Failed, true
		case Met:
			met++
		}
		if l.HasSpan || l.HasTo {
			judged++
		}
	}
	if v.State == Open && judged > 0 && met == judged {
		v.State = Met
	}
	w.comparison()
	w.coolLine(limits, f, measured, doubt)
	if f == nil {
		return
	}
	w.draw(f, limits)
	if doubt && v.State != Met {
		w.quicker(f, limits, measured)
	}
}

// cooled compares limits with the readings: the card's own with those of this step, the
// rules' with those of the stages before as well, since their clock runs on.
func (w *watching) cooled(limits []safety.Limit) []safety.Stage {
	all := append(w.stageReadings(), w.counted...)
	out := make([]safety.Stage, len(limits))
	for i, l := range limits {
		log := all
		if l.Source.Status == safety.Card {
			log = w.counted
		}
		if s, err := safety.Cooled([]safety.Limit{l}, log, w.minute()); err == nil && len(s) == 1 {
			out[i] = s[0]
		}
	}
	return out
}

// stageReadings returns the readings of the stages of cooling before this step, on its
// clock, in order of time.
func (w *watching) stageReadings() []safety.Reading {
	var log []safety.Reading
	for i, ok := w.card.StageBefore(w.index); ok; i, ok = w.card.StageBefore(i) {
		for _, t := range w.state.Temps[dinner.StepKey(w.card.ID, w.batch, i+1)] {
			if t.At < w.base {
				log = append(log, safety.Reading{Minute: float64(t.At-w.base) / 60000, TempC: t.C})
			}
		}
	}
	log, _ = safety.Sift(log, 0, safety.Expected{Falling: true})
	return log
}

// coolLimits returns the card's own limit, then those of the kitchen's rules.
func (w *watching) coolLimits() []safety.Limit {
	var out []safety.Limit
	if c := w.step.Cool; c.Set && c.Within > 0 {
		out = append(out, safety.Limit{Kind: safety.Cool, Case: w.card.Title, Bound: safety.AtMost, HasTime: true, Minutes: float64(c.Within) / 60, HasTo: true, ToC: c.ToC,
			Source: safety.Source{Publication: "the card", Section: "step " + strconv.Itoa(w.step.Number), Status: safety.Card}})
	}
	return append(out, safety.CoolingRules(w.rules)...)
}

// stage adds one limit and returns its state: now by the readings, then by
// the forecast.
func (w *watching) stage(l safety.Limit, now, then safety.Stage) (state LimitState) {
	text := w.limit(l)
	state = Open
	if !l.HasSpan && !l.HasTo {
		now.State = safety.NotJudged
	}
	switch now.State {
	case safety.Met:
		text, state = text+": took "+now.Took.String(), Met
	case safety.Failed:
		state = Failed
		text += ": not met"
		if !math.IsInf(now.Took.Slow, 1) {
			text += ", took " + now.Took.String()
		}
	case safety.Running:
		text += ": " + safety.Span(now.Left) + " left"
	case safety.NotBegun:
		if len(w.counted) == 0 {
			text += ": not read yet"
		} else {
			text += ": clock not begun"
		}
	case safety.NotJudged:
		w.line(None, text+": "+l.Case+", not judged by a probe", l.Source)
		return None
	}
	if state == Open {
		switch then.State {
		case safety.Met:
			text += "; forecast " + then.Took.String()
		case safety.Maybe:
			text += "; forecast " + then.Took.String() + ", so it may not be met"
		case safety.Failed:
			text += "; forecast " + then.Took.String() + ", so it would not be met"
		}
	}
	w.line(state, text, l.Source)
	return state
}

// comparison adds the two stages of the US rules for a rule set that has none.
func (w *watching) comparison() {
	if w.rules == safety.US || w.brief {
		return
	}
	for _, l := range safety.CoolingRules(safety.US) {
		text := "For comparison, " + w.limit(l)
		if len(w.counted) > 0 {
			if s, err := safety.Cooled([]safety.Limit{l}, w.counted, w.minute()); err == nil && len(s) == 1 {
				text += ": " + string(s[0].State)
			}
		}
		w.line(None, text, l.Source)
	}
}

// coolLine sets the one line: what was read, the forecast, whether it is in doubt.
func (w *watching) coolLine(limits []safety.Limit, f *safety.Forecast, measured []safety.Stage, doubt bool) {
	v := w.out
	line := "Not read yet."
	if n := len(w.counted); n > 0 {
		last := w.counted[n-1]
		line = w.Degrees(last.TempC) + " at " + w.clock(last.Minute) + "."
	}
	switch {
	case v.State == Met:
		v.Line = line + " Cooled in time: " + w.limit(limits[0]) + "."
		return
	case v.State == Failed:
		v.Line = line + " Not cooled in time: write down what was done."
		return
	}
	if f != nil {
		var parts []string
		for _, c := range w.targets(limits) {
			if until := f.Cools(c); len(w.counted) == 0 {
				parts = append(parts, safety.Celsius(c)+" in "+until.String())
			} else if math.IsInf(until.Mid, 1) {
				parts = append(parts, safety.Celsius(c)+" never, standing so")
			} else if until.Mid > w.minute() {
				parts = append(parts, safety.Celsius(c)+" at about "+w.clock(until.Mid))
			}
		}
		if len(parts) > 0 {
			line += " Forecast: " + strings.Join(parts, ", ") + "."
		}
	}
	switch {
	case doubt && v.Said:
		line += " That may be too slow."
	case doubt:
		line += " That may be too slow: say what it is in and how deep."
	}
	v.Line = line
}

// targets returns the temperatures that the limits end at and that are not reached
// yet: the warmest and the coldest of them, the warmest first.
func (w *watching) targets(limits []safety.Limit) []float64 {
	var out []float64
	for _, l := range append(append([]safety.Limit{}, limits...), safety.CoolingRules(safety.US)...) {
		if l.HasSpan || l.HasTo {
			out = append(out, l.ToC)
		}
	}
	now := math.Inf(1)
	if n := len(w.counted); n > 0 {
		now = w.counted[n-1].TempC
	}
	high, low := math.Inf(-1), math.Inf(1)
	for _, c := range out {
		high, low = math.Max(high, c), math.Min(low, c)
	}
	var left []float64
	if high < now && high > low {
		left = append(left, high)
	}
	if low < now {
		left = append(left, low)
	}
	return left
}
