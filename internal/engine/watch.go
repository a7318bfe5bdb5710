package engine

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"
	"time"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// deferral stands on every screen and sheet of limits.
const deferral = "A comparison with published limits, not a judgement of the food. Local codes and licensed practice come first."

// watched is one step with all that its readings are set against.
type watched struct {
	e       *Engine
	f       *followed
	call    WatchCall
	card    *card.Card
	step    *card.Step
	index   int
	batch   int
	factor  quantity.Number
	rules   safety.Rules
	class   safety.Class // of the raw food at this step, NotKnown where none is
	events  []dinner.Event
	counted []safety.Reading // minutes from base
	base    int64
	brief   bool // for the log: what was read, and no forecast
	view    *WatchView
}

// watch says how the readings of a step stand against what it asks and against
// the kitchen's rules, and what they point to.
func (e *Engine) watch(in WatchCall) (*WatchView, error) { return e.watchAs(in, false) }

func (e *Engine) watchAs(in WatchCall, brief bool) (*WatchView, error) {
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	k, ok := dinner.ParseKey(in.Key)
	if !ok || k.Step == 0 {
		return nil, fmt.Errorf("%q is no step's key", in.Key)
	}
	v := &WatchView{Lines: []WatchLine{}, Asks: []AskView{}, Points: []PointView{}, Curve: []CurveView{}, Marks: []MarkView{}, Ways: []WayView{}, Assumed: []string{}, Defer: deferral}
	w := e.watchStep(f, k, in, v)
	if w == nil {
		return v, nil // not in the dinner any more: the log still has it
	}
	w.brief = brief
	w.readings()
	switch {
	case w.step.Cool.Set:
		v.Kind = "cool"
		w.cooling()
	case w.step.Probed():
		v.Kind = "heat"
		w.heating()
	case w.step.Until.Amount.Unit != nil && w.reduction():
		v.Kind = "reduce"
	case len(v.Points) > 0:
		v.Kind = "log"
		w.heating()
	}
	if len(v.Asks) > 0 {
		v.State, v.Line = "ask", v.Asks[0].Text+"."
	}
	return v, nil
}

// watchStep finds a step by its key, nil when the dinner has it no more.
func (e *Engine) watchStep(f *followed, k dinner.Key, in WatchCall, v *WatchView) *watched {
	if f.Worked() == nil {
		return nil
	}
	d := f.Worked().Files[k.Card+".md"]
	if d == nil || d.Card == nil || k.Step > len(d.Card.Steps) {
		return nil
	}
	comp := f.Worked().Demand.ByCard[k.Card]
	if comp == nil || k.Batch > len(comp.Batches) {
		return nil
	}
	w := &watched{e: e, f: f, call: in, card: d.Card, step: &d.Card.Steps[k.Step-1], index: k.Step - 1, batch: k.Batch,
		factor: comp.Batches[k.Batch-1].Factor, rules: f.Worked().Rules(), view: v}
	w.class = w.rawClass()
	return w
}

// rawClass is the class of the raw animal food that is cooked at this step: of
// its own items, else of those that came in before it.
func (w *watched) rawClass() safety.Class {
	needs, at := w.f.Worked().Files.StepNeeds(w.card, w.step.Way)
	here := slices.Index(at, w.index)
	for i := here; i >= 0; i-- {
		for _, name := range needs[i].Items {
			if c := safety.ClassOf(name); len(safety.Cook(safety.US, c)) > 0 {
				return c
			}
		}
	}
	return safety.NotKnown
}

// readings gathers what was read at this step, asks about what is odd, and
// keeps the rest.
func (w *watched) readings() {
	v := w.view
	on := w.call.Key
	temps := slices.Clone(w.f.State().Temps[on])
	sort.SliceStable(temps, func(i, j int) bool { return temps[i].At < temps[j].At })
	log := make([]safety.Reading, len(temps))
	for i, t := range temps {
		if i == 0 {
			w.base = t.At
		}
		log[i] = safety.Reading{Minute: float64(t.At-w.base) / 60000, TempC: t.C}
	}
	if len(temps) == 0 {
		w.base = w.call.Now
	}
	var doubts []safety.Doubt
	w.counted, doubts = safety.Sift(log, w.minute(), w.step.Cool.Set)
	odd := map[int]bool{}
	for _, d := range doubts {
		odd[d.At] = true
		ask := AskView{Event: temps[d.At].Event, At: temps[d.At].At, Text: strings.ToUpper(d.Text[:1]) + d.Text[1:], AsF: !math.IsNaN(d.AsC)}
		if ask.AsF {
			ask.TempC = math.Round(d.AsC*10) / 10
		}
		v.Asks = append(v.Asks, ask)
	}
	for i, t := range temps {
		c := t.C
		v.Points = append(v.Points, PointView{Event: t.Event, At: t.At, Text: w.degrees(c), C: c, Who: w.who(t.Event, t.Device), Counted: !odd[i]})
	}
}

// who is the name on an event, else the end of its phone's.
func (w *watched) who(event, device string) string { return w.f.who(event, device) }

func (f *followed) who(event, device string) string {
	if name := strings.TrimSpace(f.Event(event).Who); name != "" {
		return name
	}
	return "phone " + device[max(0, len(device)-6):]
}

// minute is the time it is on the clock of the log.
func (w *watched) minute() float64 { return float64(w.call.Now-w.base) / 60000 }

// at writes a minute of the log as a time of day.
func (w *watched) at(minute float64) string {
	return clockOf(w.base+int64(math.Round(minute*60000)), w.call.Offset)
}

// moment is a minute of the log in Unix milliseconds.
func (w *watched) moment(minute float64) int64 { return w.base + int64(math.Round(minute*60000)) }

// clockOf writes the time of day where the wall clock is so many minutes ahead of UTC.
func clockOf(ms int64, offset int) string {
	t := wallOf(ms, offset)
	return two(t.Hour()) + ":" + two(t.Minute())
}

// two writes a number of the clock or the calendar. time.Format would do all of
// this, and brings what reads and writes every form there is.
func two(n int) string {
	if n < 10 {
		return "0" + itoa(n)
	}
	return itoa(n)
}

func wallOf(ms int64, offset int) time.Time {
	return time.UnixMilli(ms).UTC().Add(time.Duration(max(-1440, min(1440, offset))) * time.Minute)
}

// degrees writes a temperature as this cook reads it.
func (w *watched) degrees(c float64) string {
	if w.e.show.System == quantity.US && !math.IsNaN(c) && math.Abs(c) < 1e6 {
		return fahrenheit(c) + " (" + safety.Celsius(c) + ")"
	}
	return safety.Celsius(c)
}

// aim is the limit that the step's own facts set for a core, where one does.
func (w *watched) aim() (safety.Limit, bool) {
	s := w.step
	own := safety.Limit{Kind: safety.CookTo, Bound: safety.AtLeast, HasTemp: true, Case: w.card.Title, HasTime: true, AtOnce: true,
		Source: safety.Source{Publication: "the card", Section: "step " + itoa(s.Number), Status: safety.Card}}
	for _, c := range s.Check {
		if c.HasC {
			own.TempC = c.MinC
			if cold(c.Words, c.MinC) {
				own.Bound, own.Kind, own.HasTime, own.AtOnce = safety.AtMost, safety.HoldCold, false, false
			}
			return own, true
		}
	}
	if s.Until.HasCore {
		own.TempC = s.Until.CoreC
		return own, true
	}
	return own, false
}

// cold says whether a check asks for no more than its temperature: it says so,
// or it is a fridge's.
func cold(words string, c float64) bool {
	low := strings.ToLower(words)
	return c <= 8 || strings.Contains(low, "at most") || strings.Contains(low, "or under") || strings.Contains(low, "or below") || strings.Contains(low, "under ")
}

// line adds one comparison.
func (w *watched) line(state, text string, source safety.Source) {
	from := ""
	if source.Publication != "" || source.Status != "" {
		from = source.String()
	}
	w.view.Lines = append(w.view.Lines, WatchLine{State: state, Text: text, Source: from})
}

// component is the batch's own mass in kilograms, 0 where it is not known.
func (w *watched) kg(comp *demand.Component) float64 {
	m := comp.Batches[w.batch-1]
	amount := m.Amount
	if m.Measured {
		amount = m.Got
	}
	return kilograms(quantity.Amount{Qty: amount, Unit: comp.Unit}, w.card)
}
