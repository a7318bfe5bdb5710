package monitor

import (
	"math"
	"strconv"

	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// aim returns the limit that the step's own facts set for a core; ok is false
// where none does.
func (w *watching) aim() (own safety.Limit, ok bool) {
	s := w.step
	own = safety.Limit{Kind: safety.CookTo, Bound: safety.AtLeast, HasTemp: true, Case: w.card.Title, HasTime: true, AtOnce: true,
		Source: safety.Source{Publication: "the card", Section: "step " + strconv.Itoa(s.Number), Status: safety.Card}}
	for _, c := range s.Check {
		if c.OfFood() {
			own.TempC = c.MinC
			own.Minutes, own.AtOnce = float64(c.For)/60, c.For == 0
			if c.AtMost() {
				own.Bound, own.Kind, own.HasTime, own.AtOnce = safety.AtMost, safety.HoldCold, false, false
			}
			return own, true
		}
	}
	if s.Until.HasCore {
		own.TempC = s.Until.CoreC
		own.Minutes, own.AtOnce = float64(s.Until.CoreFor)/60, s.Until.CoreFor == 0
		return own, true
	}
	return own, false
}

// stateOf returns Met, or else Open while the step is under way and Failed once it
// is ticked.
func (w *watching) stateOf(met bool) LimitState {
	switch {
	case met:
		return Met
	case w.state.Ticks[w.key].Done:
		return Failed
	}
	return Open
}

// asks writes a limit and whose it is: "the card asks at least 63 °C".
func (w *watching) asks(l safety.Limit) string {
	if l.Source.Status == safety.Card {
		return "the card asks " + w.limit(l)
	}
	return "the rules ask " + w.limit(l)
}

// limit writes a limit in this cook's degrees.
func (w *watching) limit(l safety.Limit) string {
	if l.Source.Status == safety.Card && l.HasTemp { // "at once" is a code's word
		text := string(l.Bound) + " " + w.Degrees(l.TempC)
		if l.HasTime && !l.AtOnce {
			text += " for " + safety.Span(l.Minutes)
		}
		return text
	}
	text := l.String()
	if w.Show.System == quantity.US && l.HasTemp {
		text += " (" + strconv.FormatFloat(math.Round(l.InF(l.TempC)), 'f', -1, 64) + " °F)"
	}
	return text
}

// heldText writes the state of a limit on heat.
func (w *watching) heldText(h safety.Held) string {
	got := "hottest " + w.Degrees(h.MaxC)
	if h.Minutes > 0 {
		got = safety.Span(h.Minutes) + " at or over " + w.Degrees(h.Limit.TempC)
	}
	if h.Met {
		got = "reached at " + w.clock(h.At) + "; " + got
	}
	return w.limit(h.Limit) + ": " + got
}
