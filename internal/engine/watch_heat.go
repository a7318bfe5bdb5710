package engine

import (
	"fmt"
	"math"

	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// heating sets core temperatures against the card's own limit, the rows of the
// kitchen's rules, and the model behind them.
func (w *watched) heating() {
	v := w.view
	v.State = "open"
	own, has := w.aim()
	if has && own.Bound == safety.AtMost {
		w.keptCold(own)
		return
	}
	rows := w.rows()
	main := own
	if !has {
		if len(rows) == 0 {
			v.State = ""
			w.noBasis()
			return
		}
		main = w.usual(rows)
	}
	if len(w.counted) == 0 {
		v.Line = "Core: " + w.asks(main) + ". Not read yet."
		w.line("open", w.asks(main)+": not read yet", main.Source)
		if has && len(rows) > 0 {
			u := w.usual(rows)
			w.line("open", w.asks(u)+": not read yet", u.Source)
		}
		w.noBasis()
		return
	}
	held, err := safety.Against([]safety.Limit{main}, w.counted)
	if err != nil || len(held) == 0 {
		return
	}
	last := w.counted[len(w.counted)-1]
	v.Line = w.ahead(main, held[0], last)
	v.State = w.stateOf(held[0].Met)
	w.line(w.stateOf(held[0].Met), w.heldText(held[0]), main.Source)
	if has && len(rows) > 0 {
		w.beside(rows)
	}
	w.model()
	w.noBasis()
}

// rows are the rows of the kitchen's rules that bear on the core of this step:
// each is enough by itself.
func (w *watched) rows() []safety.Limit {
	if w.class != safety.NotKnown {
		return safety.Cook(w.rules, w.class)
	}
	var out []safety.Limit
	for _, l := range w.reheating() {
		if w.rules != safety.UK {
			out = append(out, l)
		}
	}
	return out
}

// reheating are the rows for food that was cooked before, where this step heats
// what another card makes.
func (w *watched) reheating() []safety.Limit {
	made := false
	for _, r := range w.step.Text {
		made = made || r.Item > 0 && w.card.Items[r.Item-1].Card != ""
	}
	var out []safety.Limit
	for _, l := range safety.For(w.rules, safety.Reheat, safety.Cooked) {
		if made && l.HasTemp && l.Bound == safety.AtLeast && !l.Stand {
			out = append(out, l)
		}
	}
	return out
}

// scotland sets the one figure there is for re-heating in the UK beside the rest:
// no file says in which of its countries a kitchen stands.
func (w *watched) scotland() {
	if w.brief || w.rules != safety.UK || w.class != safety.NotKnown {
		return
	}
	for _, l := range w.reheating() {
		w.line("", "In "+l.Case+", re-heated food: "+w.limit(l), l.Source)
	}
}

// usual is the row a code is best known by, of those that are enough.
func (w *watched) usual(rows []safety.Limit) safety.Limit {
	if l, ok := safety.Usual(w.rules, w.class); ok {
		return l
	}
	return rows[0]
}

// beside compares with the rules' rows beside the card's own limit: the first
// that is met, else the usual one.
func (w *watched) beside(rows []safety.Limit) {
	held, err := safety.Against(rows, w.counted)
	if err != nil {
		return
	}
	for _, h := range held {
		if h.Met {
			w.line("met", w.heldText(h), h.Limit.Source)
			return
		}
	}
	u := w.usual(rows)
	for _, h := range held {
		if h.Limit.ID != u.ID {
			continue
		}
		w.line(w.stateOf(false), w.heldText(h), u.Source)
		if w.view.State != "met" {
			continue // one thing at a time
		}
		w.view.Line += " The rules' " + w.limit(u) + " is not reached."
		if !u.Advice {
			w.view.State = w.stateOf(false)
		}
	}
}

// model says how much of what its limit stands for a log has reached, where a
// published model for this food is at hand.
func (w *watched) model() {
	k, ok := safety.KineticsFor(w.rules, w.class)
	if !ok || len(w.counted) < 2 {
		return
	}
	l, err := safety.Lethality(k, w.counted)
	if err != nil {
		return
	}
	text := fmt.Sprintf("By the model (%s): %.0f %% of what is asked", k.Name, math.Min(999, 100*l.Share()))
	state := w.stateOf(l.Share() >= 1)
	if ahead, err := safety.Remaining(k, w.counted); err == nil && l.Share() < 1 {
		if !math.IsNaN(ahead.AtThisRate) {
			text += ", all of it in " + safety.Span(ahead.AtThisRate) + " at this rate"
		}
		if !math.IsNaN(ahead.Holding) && ahead.Holding < 24*60 {
			text += ", in " + safety.Span(ahead.Holding) + " if it stays as it is"
		}
	}
	w.line(state, text, k.Source)
	for _, g := range l.Gaps {
		w.line("", "Nobody read it in the "+safety.Span(w.gapBefore(g))+" before "+w.at(g.Minute)+": the colder end was counted", safety.Source{})
	}
}

func (w *watched) gapBefore(g safety.Reading) float64 {
	for i := 1; i < len(w.counted); i++ {
		if w.counted[i] == g {
			return g.Minute - w.counted[i-1].Minute
		}
	}
	return 0
}

// ahead is the one line: what was read, what is asked, when it will be there.
func (w *watched) ahead(l safety.Limit, h safety.Held, last safety.Reading) string {
	read := w.degrees(last.TempC) + " at " + w.at(last.Minute)
	if h.Met {
		return "Reached at " + w.at(h.At) + ": " + w.asks(l) + "."
	}
	in, ok := safety.Reaching(l, w.counted)
	switch {
	case ok && last.Minute+in > w.minute():
		return read + "; " + w.limit(l) + " at about " + w.at(last.Minute+in) + " at this rate."
	case ok:
		return read + "; at that rate " + w.limit(l) + " is there by now: read it again."
	case len(w.counted) == 1:
		return read + "; " + w.asks(l) + ". A second reading tells when."
	case last.TempC >= l.TempC:
		return read + ", and falling; " + w.asks(l) + "."
	}
	return read + ", and not rising; " + w.asks(l) + "."
}

// keptCold sets readings against a check that asks for no more than so much.
func (w *watched) keptCold(own safety.Limit) {
	v := w.view
	limits := append([]safety.Limit{own}, safety.For(w.rules, safety.HoldCold, safety.Cooked)...)
	if len(w.counted) == 0 {
		v.Line = w.asks(own) + ". Not read yet."
		w.line("open", w.asks(own)+": not read yet", own.Source)
		return
	}
	last := w.counted[len(w.counted)-1]
	holds, err := safety.Holding(limits, w.counted)
	if err != nil {
		return
	}
	for i, h := range holds {
		state := map[safety.State]string{safety.Met: "met", safety.Failed: "failed"}[h.State]
		text := w.limit(h.Limit) + ": " + string(h.State)
		if h.State == safety.Failed {
			text += ", " + w.degrees(h.WorstC) + " at the worst"
		}
		w.line(state, text, h.Limit.Source)
		if i == 0 {
			v.State = state
		}
	}
	v.Line = w.degrees(last.TempC) + " at " + w.at(last.Minute) + "; " + w.asks(own) + "."
}

// stateOf is "met", "open" while the step is under way, "failed" once it is ticked.
func (w *watched) stateOf(met bool) string {
	switch {
	case met:
		return "met"
	case w.f.State().Ticks[w.call.Key].Done:
		return "failed"
	}
	return "open"
}

// asks says whose limit it is: "the card asks at least 63 °C".
func (w *watched) asks(l safety.Limit) string {
	if l.Source.Status == safety.Card {
		return "the card asks " + w.limit(l)
	}
	return "the rules ask " + w.limit(l)
}

// limit is a limit in this cook's degrees.
func (w *watched) limit(l safety.Limit) string {
	if l.Source.Status == safety.Card && l.HasTemp { // "at once" is a code's word
		return string(l.Bound) + " " + w.degrees(l.TempC)
	}
	text := l.String()
	if w.e.show.System == quantity.US && l.HasTemp {
		text += " (" + fahrenheit(l.TempC) + ")"
	}
	return text
}

func (w *watched) heldText(h safety.Held) string {
	got := "hottest " + w.degrees(h.MaxC)
	if h.Minutes > 0 {
		got = safety.Span(h.Minutes) + " at or over " + w.degrees(h.Limit.TempC)
	}
	if h.Met {
		got = "reached at " + w.at(h.At) + "; " + got
	}
	return w.limit(h.Limit) + ": " + got
}

// noBasis says what could not be compared, and why.
func (w *watched) noBasis() {
	w.scotland()
	switch {
	case w.rules == "":
		w.line("", `The kitchen names no rules, so nothing is compared with a code: write "rules: us" or "rules: uk" there`, safety.Source{})
	case w.class == safety.NotKnown && w.view.Kind != "cool" && len(w.rows()) == 0:
		w.line("", "No item here is a raw food that the rules have a row for by its name", safety.Source{})
	}
}
