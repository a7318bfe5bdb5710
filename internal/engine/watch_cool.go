package engine

import (
	"math"
	"strings"

	"hobside/internal/safety"
)

// cooling sets a cooling step's readings against the card's own limit and the
// stages of the kitchen's rules, with a forecast that follows the readings.
func (w *watched) cooling() {
	v := w.view
	v.State = "open"
	limits := w.coolLimits()
	var f *safety.Forecast
	if !w.brief {
		f = w.forecast()
	}
	var measured, ahead []safety.Stage
	if len(w.counted) > 0 {
		measured, _ = safety.Cooled(limits, w.counted, w.minute())
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
		doubt = doubt || state == "open" && (then.State == safety.Failed || then.State == safety.Maybe)
		switch state {
		case "failed":
			v.State, doubt = "failed", true
		case "met":
			met++
		}
		if l.HasSpan || l.HasTo {
			judged++
		}
	}
	if v.State == "open" && judged > 0 && met == judged {
		v.State = "met"
	}
	w.comparison()
	w.coolLine(limits, f, measured, doubt)
	if f == nil {
		return
	}
	w.draw(f, limits)
	if doubt && v.State != "met" {
		w.quicker(f, limits, measured)
	}
}

// coolLimits are the card's own, then those of the kitchen's rules.
func (w *watched) coolLimits() []safety.Limit {
	var out []safety.Limit
	if c := w.step.Cool; c.Set && c.Within > 0 {
		out = append(out, safety.Limit{Kind: safety.Cool, Case: w.card.Title, Bound: safety.AtMost, HasTime: true, Minutes: float64(c.Within) / 60, HasTo: true, ToC: c.ToC,
			Source: safety.Source{Publication: "the card", Section: "step " + itoa(w.step.Number), Status: safety.Card}})
	}
	return append(out, safety.CoolingRules(w.rules)...)
}

// vessel is how it stands: what a cook has noted, over what the card tells.
func (w *watched) vessel() (v safety.Vessel, said bool, wrong error) {
	kg := 0.0
	if comp := w.f.Worked().Demand.ByCard[w.card.ID]; comp != nil {
		kg = w.kg(comp)
	}
	base := safety.VesselOf(w.card.Title, w.step.EquipmentNames(), w.step.Sentence(), kg, w.class)
	if base.Class == safety.NotKnown {
		base.Class = safety.Cooked // and said so, in forecast
	}
	for _, n := range w.f.State().Notes {
		if n.On != w.call.Key || !strings.HasPrefix(strings.ToLower(n.Text), safety.PourWord) {
			continue
		}
		note, err := safety.ParseVessel(n.Text)
		wrong = err
		if err == nil {
			v, said = note, true // the newest that can be read
		}
	}
	return v.Over(base), said, wrong
}

// forecast is how it will go, by the readings where there are two; nil where
// there is no basis, with the reason among the lines.
func (w *watched) forecast() *safety.Forecast {
	v := w.view
	vessel, said, wrong := w.vessel()
	if wrong != nil {
		w.line("", "The note on how it stands: "+wrong.Error(), safety.Source{})
	}
	v.Vessel, v.Said = vessel.String(), said
	if len(w.counted) > 0 {
		vessel.FromC, vessel.HasFrom = w.counted[0].TempC, true
	}
	f, err := vessel.Forecast()
	if err != nil {
		w.line("", "No forecast: "+err.Error(), safety.Source{})
		return nil
	}
	if vessel.Class == safety.Cooked && !said {
		f.Assumed = append([]string{"its name says nothing of what it is: taken as cooked food"}, f.Assumed...)
	}
	if len(w.counted) > 1 {
		if err := f.Measure(w.counted); err != nil {
			w.line("", "The readings don't fit the forecast, which goes on without them: "+err.Error(), safety.Source{})
		}
	}
	v.Assumed = f.Assumed
	return f
}

// stage writes one limit down and says how it stands.
func (w *watched) stage(l safety.Limit, now, then safety.Stage) (state string) {
	text := w.limit(l)
	state = "open"
	if !l.HasSpan && !l.HasTo {
		now.State = safety.NotJudged
	}
	switch now.State {
	case safety.Met:
		text, state = text+": took "+now.Took.String(), "met"
	case safety.Failed:
		state = "failed"
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
		w.line("", text+": "+l.Case+", not judged by a probe", l.Source)
		return ""
	}
	if state == "open" {
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

// comparison sets the two stages beside a rule set that has none of its own.
func (w *watched) comparison() {
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
		w.line("", text, l.Source)
	}
}

// coolLine is the one line.
func (w *watched) coolLine(limits []safety.Limit, f *safety.Forecast, measured []safety.Stage, doubt bool) {
	v := w.view
	line := "Not read yet."
	if n := len(w.counted); n > 0 {
		last := w.counted[n-1]
		line = w.degrees(last.TempC) + " at " + w.at(last.Minute) + "."
	}
	switch {
	case v.State == "met":
		v.Line = line + " Cooled in time: " + w.limit(limits[0]) + "."
		return
	case v.State == "failed":
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
				parts = append(parts, safety.Celsius(c)+" at about "+w.at(until.Mid))
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
		line += " That may be too slow: say how it stands."
	}
	v.Line = line
}

// targets are the temperatures that limits end at, the warmest first, those
// that are not reached yet.
func (w *watched) targets(limits []safety.Limit) []float64 {
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

// draw writes the forecast's curve, and where its limits lie.
func (w *watched) draw(f *safety.Forecast, limits []safety.Limit) {
	end := 120.0
	for _, l := range limits {
		if l.HasSpan || l.HasTo {
			end = math.Max(end, l.Minutes*1.1)
		}
	}
	if n := len(w.counted); n > 0 {
		end = math.Max(end, w.counted[n-1].Minute*1.05)
	}
	const points = 40
	for i := range points + 1 {
		m := end * float64(i) / points
		slow, mid, quick := f.At(m)
		w.view.Curve = append(w.view.Curve, CurveView{At: w.moment(m), Slow: tenth(slow), Mid: tenth(mid), Quick: tenth(quick)})
	}
	for _, l := range limits {
		if !l.HasSpan && !l.HasTo {
			continue
		}
		begun := 0.0
		if l.HasSpan {
			begun = f.Cools(l.FromC).Mid
		}
		if !math.IsInf(begun, 1) {
			w.view.Marks = append(w.view.Marks, MarkView{At: w.moment(begun + l.Minutes), C: l.ToC, Text: w.limit(l)})
		}
	}
}

func tenth(c float64) float64 { return math.Round(c*10) / 10 }

// quicker lists what would cool it more quickly from now on, set against the
// time that each limit has left.
func (w *watched) quicker(f *safety.Forecast, limits []safety.Limit, measured []safety.Stage) {
	vessel, _, _ := w.vessel()
	vessel.FromC, vessel.HasFrom = f.FromC, true
	left := append([]safety.Limit{}, limits...)
	if n := len(w.counted); n > 0 {
		vessel.FromC = w.counted[n-1].TempC
		left = left[:0]
		for i, l := range limits {
			switch measured[i].State {
			case safety.Running:
				l.Minutes = measured[i].Left
				left = append(left, l)
			case safety.NotBegun:
				left = append(left, l)
			}
		}
	}
	g, err := vessel.Forecast()
	if err != nil || len(left) == 0 {
		return
	}
	for _, way := range g.Better(left) {
		v := WayView{Text: way.Words, Meets: way.Meets, Lines: []string{}}
		for _, s := range way.Stages {
			if s.State != safety.NotJudged {
				v.Lines = append(v.Lines, "to "+safety.Celsius(s.Limit.ToC)+" in "+s.Took.String()+", "+safety.Span(s.Limit.Minutes)+" left")
			}
		}
		w.view.Ways = append(w.view.Ways, v)
	}
}
