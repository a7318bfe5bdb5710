package engine

import (
	"encoding/json"
	"fmt"
	"slices"
	"sort"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/dinner"
	"hobside/internal/document"
	"hobside/internal/library"
	"hobside/internal/plan"
	"hobside/internal/quantity"
)

// followed is a dinner whose events the engine has.
type followed struct {
	id      string
	texts   map[string]string // revision -> text
	events  map[string]dinner.Event
	changed bool // an event after the opening changed how much is planned
	state   *dinner.State
	basis   string      // what the dinner below was worked out from
	dinner  *DinnerView // nil until the opening event is known
	demand  *demand.Demand
	means   []demand.Consequence // of what is weighed or short
	docs    library.Set          // the pinned files, by name
	between []document.Problem   // what they show together …
	pins    string               // … and which they were then
}

// together looks at the pinned files together, anew only when one of them has
// changed.
func (f *followed) together() []document.Problem {
	var pins strings.Builder
	for _, name := range f.docs.Names() {
		pins.WriteString(name + "@" + f.state.Open.Files[name] + "\n")
	}
	if f.pins != pins.String() || f.pins == "" {
		f.between, f.pins = f.docs.Check(), pins.String()
	}
	return f.between
}

// open begins to follow a dinner, or begins again.
func (e *Engine) open(in OpenCall) (*Sheet, error) {
	if in.Dinner == "" {
		return nil, fmt.Errorf("open names no dinner")
	}
	f := &followed{id: in.Dinner, texts: map[string]string{}, events: map[string]dinner.Event{}}
	e.dinners[in.Dinner] = f
	return e.take(f, in.Texts, in.Events, true)
}

// apply adds events to an open dinner.
func (e *Engine) apply(in ApplyCall) (*Sheet, error) {
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	return e.take(f, in.Texts, in.Events, false)
}

// prefs changes how amounts are shown.
func (e *Engine) prefs(in Prefs) (*Sheet, error) {
	show := quantity.Prefs{System: quantity.Metric, Scale: quantity.Int(1)}
	switch in.System {
	case "", "metric":
	case "us":
		show.System = quantity.US
	case "imperial":
		show.System = quantity.Imperial
	case "typed":
		show.AsTyped, show.Ladder = true, true
	default:
		return nil, fmt.Errorf("unknown system %q: metric, us, imperial or typed", in.System)
	}
	switch in.Scale {
	case "", "1 g":
	case "0.1 g":
		show.Scale = quantity.Frac(1, 10)
	case "5 g":
		show.Scale = quantity.Int(5)
	default:
		return nil, fmt.Errorf("unknown scale %q: 0.1 g, 1 g or 5 g", in.Scale)
	}
	e.show = show
	for _, f := range e.dinners {
		f.basis = "" // shown in the old way
	}
	if in.Dinner == "" {
		return &Sheet{}, nil
	}
	f, ok := e.dinners[in.Dinner]
	if !ok {
		return nil, fmt.Errorf("dinner %q is not open in the engine: open it first", in.Dinner)
	}
	return e.take(f, nil, nil, true)
}

// take folds what is new and works the dinner out again when that changed it.
func (e *Engine) take(f *followed, texts map[string]string, events []dinner.Event, always bool) (*Sheet, error) {
	for rev, text := range texts {
		f.texts[rev] = text
	}
	for _, ev := range events {
		if ev.Dinner != f.id {
			continue // another dinner's: the caller pages through one log of all
		}
		f.changed = f.changed || changes(ev.Kind) && ev.Kind != dinner.KindOpen
		f.events[ev.ID] = ev // a later copy has the server's final stamp
	}
	all := make([]dinner.Event, 0, len(f.events))
	for _, ev := range f.events {
		all = append(all, ev)
	}
	f.state = dinner.Fold(all)
	sheet := &Sheet{State: f.state}
	if f.state.Open == nil {
		return sheet, nil
	}
	basis := f.newBasis()
	if always || basis != f.basis {
		e.workOut(f)
		f.basis = basis
		sheet.Dinner = f.dinner
	}
	return sheet, nil
}

// newBasis writes down all that amounts depend on. Two states with the same
// basis have the same dinner.
func (f *followed) newBasis() string {
	have := make([]string, 0, len(f.texts))
	for rev := range f.texts {
		have = append(have, rev)
	}
	slices.Sort(have)
	s := f.state
	b, _ := json.Marshal([]any{s.Open, s.Covers, s.Guests, s.Serve, s.Ways, s.Leave, s.Portions, s.Again, s.Have, s.Measures, have})
	if f.changed { // what is begun stays as it was planned then
		more, _ := json.Marshal([]any{begun(s), weighedDone(s)})
		b = append(b, more...)
	}
	return string(b)
}

// workOut compiles the pinned files and explodes the dinner.
func (e *Engine) workOut(f *followed) {
	f.docs = library.Set{}
	var problems []document.Problem
	for name, rev := range f.state.Open.Files {
		text, ok := f.texts[rev]
		if !ok {
			problems = append(problems, document.Problem{File: name, Line: 1, Col: 1, Severity: document.Error,
				Msg: "its text is not on this phone yet", Do: "it comes with the next sync"})
			continue
		}
		d := e.cache.Compile(name, text)
		f.docs[name] = d
		problems = append(problems, d.Problems...)
	}
	problems = append(problems, f.together()...)
	in := f.input()
	problems = append(problems, seated(in, f.state.Guests)...)
	f.demand = &demand.Demand{ByCard: map[string]*demand.Component{}}
	f.means = nil
	if in.Menu != nil {
		var more []document.Problem
		f.demand, more = demand.Explode(in)
		problems = append(problems, more...)
		f.means = demand.Consequences(in, f.demand)
	}
	sort.SliceStable(problems, func(i, j int) bool { return before(&problems[i], &problems[j]) })
	problems = slices.Compact(problems)
	f.dinner = e.serve(f, in, problems)
}

// input gathers what demand needs from the state as it is now.
func (f *followed) input() demand.Input { return f.inputOf(f.state, f.freeze()) }

// inputOf gathers what demand needs from a state. Frozen is how much of the
// card was planned for each batch that is begun.
func (f *followed) inputOf(s *dinner.State, frozen map[string]quantity.Number) demand.Input {
	in := demand.Input{
		Cards:    map[string]*card.Card{},
		Covers:   s.Covers,
		Again:    s.Again,
		Ways:     s.Ways,
		Leave:    map[string]map[int]bool{},
		Portions: s.Portions,
	}
	if s.Covers == 0 && s.Open != nil && s.Open.Covers > 0 {
		in.Covers = -1 // all have cancelled
	}
	for name, d := range f.docs {
		if d.Card != nil {
			in.Cards[d.Card.ID] = d.Card
		}
		if d.Menu != nil && name == f.state.Open.Menu {
			in.Menu = withGuests(d.Menu, s.Guests)
		}
	}
	in.Made = f.made(s, in.Cards, frozen)
	for key, left := range s.Leave {
		k, ok := dinner.ParseKey(key)
		if !ok || k.Item == 0 || !left {
			continue
		}
		if in.Leave[k.Card] == nil {
			in.Leave[k.Card] = map[int]bool{}
		}
		in.Leave[k.Card][k.Item] = true
	}
	// What must be made apart depends on times, so the plan's room says so; amounts
	// and plan then agree on the batches.
	timed := plan.Input{Dinner: in}
	if k := f.docs[f.state.Open.Kitchen]; k != nil {
		timed.Kitchen = k.Kitchen
	}
	in.Apart = plan.Apart(timed)
	return in
}

// yields says whether a weight taken at a step is what the whole batch gave:
// the step ends when the weight that the card makes is reached.
func yields(c *card.Card, step int) bool {
	if step < 1 || step > len(c.Steps) {
		return false
	}
	until := c.Steps[step-1].Until.Amount
	if until.Unit == nil || c.Makes.Unit == nil {
		return false
	}
	n, ok := quantity.Convert(until.Need(), until.Unit, c.Makes.Unit)
	return ok && n.Cmp(c.Makes.Need()) == 0
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// before is the order problems are listed in: by file, then as one reads.
func before(a, b *document.Problem) bool {
	switch {
	case a.File != b.File:
		return a.File < b.File
	case a.Line != b.Line:
		return a.Line < b.Line
	case a.Col != b.Col:
		return a.Col < b.Col
	}
	return a.Msg < b.Msg
}
