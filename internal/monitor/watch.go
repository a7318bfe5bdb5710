package monitor

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"strings"

	"hobside/internal/card"
	"hobside/internal/dinner"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// A WatchKind is what there is to watch at a step.
type WatchKind string

// What there is to watch: a core temperature, cooling, a pot that boils down,
// readings that no limit is for, or nothing.
const (
	Nothing  WatchKind = ""
	Heat     WatchKind = "heat"
	Cool     WatchKind = "cool"
	Reduce   WatchKind = "reduce"
	Readings WatchKind = "log"
)

// A Watch is how the readings of a step stand: one line for the stove, and the
// comparisons behind it.
type Watch struct {
	Kind    WatchKind  `json:"kind"`
	State   LimitState `json:"state"`
	Line    string     `json:"line"` // the one line, "" for nothing to say
	Lines   []Line     `json:"lines"`
	Asks    []Ask      `json:"asks"`
	Points  []Point    `json:"points"` // readings or weights in order of time
	Curve   []Curve    `json:"curve"`  // a cooling forecast, empty for none
	Marks   []Mark     `json:"marks"`  // where its limits lie
	Ways    []Way      `json:"ways"`   // what would cool it quicker, when a limit is in doubt
	Vessel  string     `json:"vessel"` // how the food cools, as said or assumed
	Said    bool       `json:"said"`   // a cook said how it cools; false: all of it is assumed
	Assumed []string   `json:"assumed"`

	Corrective string `json:"corrective"` // what the card says to do where a limit is not met; "" for nothing, and while it may still be met
}

// A Line is one comparison, with the limit's source.
type Line struct {
	State  LimitState `json:"state"`
	Text   string     `json:"text"`
	Source string     `json:"source"` // "" for a remark
}

// An Ask is a reading that is not counted until it is settled.
type Ask struct {
	Event string  `json:"event"`
	At    int64   `json:"at"`
	Text  string  `json:"text"`
	TempC float64 `json:"tempC"` // what it is by the other unit, where Was is set
	Was   string  `json:"was"`   // the unit that the probe showed then, "°F" or "°C"; "" where no unit explains it
}

// A Point is one reading or weight.
type Point struct {
	Event   string  `json:"event"`
	At      int64   `json:"at"`
	Text    string  `json:"text"` // "63 °C", "1.4 kg"
	C       float64 `json:"c"`    // °C, or kg for a weight
	Who     string  `json:"who"`
	Counted bool    `json:"counted"`
}

// watching is one step with all that its readings are compared with.
type watching struct {
	*Reader
	out     *Watch
	key     string
	state   *dinner.State
	worked  *dinner.Worked
	card    *card.Card
	step    *card.Step
	index   int // of the step in Card.Steps
	batch   int // counted from 1
	factor  quantity.Number
	rules   safety.Rules
	class   safety.Class     // of the raw food at this step, NotKnown where there is none
	food    string           // its name
	counted []safety.Reading // in minutes from base
	base    int64            // Unix milliseconds of the first reading
	brief   bool             // for the log: what was read, and no forecast
}

// Watch compares the readings of a step, named by its key, with what the step
// asks and with the kitchen's rules, and says what they point to. A step that the
// dinner does not have any more gives an empty Watch. The error is for a key that
// names no step.
func (r *Reader) Watch(key string) (*Watch, error) { return r.watch(key, false) }

func (r *Reader) watch(key string, brief bool) (*Watch, error) {
	k, ok := dinner.ParseKey(key)
	if !ok || k.Step == 0 {
		return nil, fmt.Errorf("%q is not a step's key", key)
	}
	out := &Watch{}
	w := r.find(k)
	if w == nil {
		return out, nil
	}
	w.out, w.key, w.brief = out, key, brief
	w.readings()
	switch {
	case w.step.Cool.Set:
		out.Kind = Cool
		w.cooling()
	case w.step.Probed():
		out.Kind = Heat
		w.heating()
	case w.step.Until.Amount.Unit != nil && w.reduction():
		out.Kind = Reduce
	case len(out.Points) > 0:
		out.Kind = Readings
		w.heating()
	}
	if slices.ContainsFunc(out.Lines, func(l Line) bool { return l.State == Failed }) {
		out.Corrective = w.card.CorrectiveAt(w.index)
	}
	if len(out.Asks) > 0 {
		out.State, out.Line = Asked, out.Asks[0].Text+"."
	}
	return out, nil
}

// find returns a step by its key, nil when the dinner does not have it.
func (r *Reader) find(k dinner.Key) *watching {
	worked := r.Dinner.Worked()
	if worked == nil {
		return nil
	}
	c, comp := worked.Files.Card(k.Card), worked.Demand.ByCard[k.Card]
	if c == nil || k.Step > len(c.Steps) || comp == nil || k.Batch < 1 || k.Batch > len(comp.Batches) {
		return nil
	}
	w := &watching{Reader: r, state: r.Dinner.State(), worked: worked, card: c, step: &c.Steps[k.Step-1], index: k.Step - 1,
		batch: k.Batch, factor: comp.Batches[k.Batch-1].Factor, rules: worked.Rules()}
	w.class, w.food = w.rawFood()
	return w
}

// rawFood returns the class and the name of the raw animal food that is cooked at this
// step: of the step's own items, else of those that came in before it.
func (w *watching) rawFood() (safety.Class, string) {
	needs, at := w.worked.Files.StepNeeds(w.card, w.step.Way)
	for i := slices.Index(at, w.index); i >= 0; i-- {
		for _, name := range needs[i].Items {
			if c := safety.ClassOf(name); len(safety.Cook(safety.US, c)) > 0 {
				return safety.ClassIn(needs, name), name
			}
		}
	}
	return safety.NotKnown, ""
}

// readings gathers the temperatures read at this step: those that count, and
// those that somebody is asked about.
func (w *watching) readings() {
	temps := slices.Clone(w.state.Temps[w.key])
	sort.SliceStable(temps, func(i, j int) bool { return temps[i].At < temps[j].At })
	w.base = w.Now
	log := make([]safety.Reading, len(temps))
	for i, t := range temps {
		if i == 0 {
			w.base = t.At
		}
		log[i] = safety.Reading{Minute: float64(t.At-w.base) / 60000, TempC: t.C}
	}
	var doubts []safety.Doubt
	w.counted, doubts = safety.Sift(log, w.minute(), w.expected())
	odd := map[int]bool{}
	for _, d := range doubts {
		odd[d.At] = true
		ask := Ask{Event: temps[d.At].Event, At: temps[d.At].At, Text: strings.ToUpper(d.Text[:1]) + d.Text[1:], Was: d.Was}
		if ask.Was != "" {
			ask.TempC = math.Round(d.AsC*10) / 10
		}
		w.out.Asks = append(w.out.Asks, ask)
	}
	for i, t := range temps {
		w.out.Points = append(w.out.Points, Point{Event: t.Event, At: t.At, Text: w.Degrees(t.C), C: t.C, Who: w.who(t.Event, t.Device), Counted: !odd[i]})
	}
}

// expected returns what the readings of the step can be, by which a reading in the wrong
// unit is told.
func (w *watching) expected() safety.Expected {
	own, has := w.aim()
	cold := has && own.Bound == safety.AtMost
	e := safety.Expected{Falling: w.step.Cool.Set || cold}
	switch {
	case cold:
		e.ColdestC = own.TempC
	case !e.Falling:
		target := 0.0
		if has {
			target = own.TempC
		}
		e.HottestC = safety.Hottest(w.class, w.warming(), safety.Wet(w.step.Sentence()), target)
		e.FirstC = safety.Overshot(w.class, safety.Wet(w.step.Sentence()), target)
	}
	return e
}

// minute returns the time it is, in minutes from the first reading.
func (w *watching) minute() float64 { return float64(w.Now-w.base) / 60000 }

// clock writes a minute of the readings as a time of day.
func (w *watching) clock(minute float64) string { return w.timeOfDay(w.moment(minute)) }

// moment returns a minute of the readings in Unix milliseconds.
func (w *watching) moment(minute float64) int64 { return w.base + int64(math.Round(minute*60000)) }

// line adds one comparison, or a remark where the source is empty.
func (w *watching) line(state LimitState, text string, source safety.Source) {
	from := ""
	if source.Publication != "" || source.Status != "" {
		from = source.String()
	}
	w.out.Lines = append(w.out.Lines, Line{State: state, Text: text, Source: from})
}
