package monitor

import (
	"fmt"
	"math"

	"hobside/internal/safety"
)

// model says how much of the kill that the limit stands for the readings have
// reached, where there is a published model for this food.
func (w *watching) model() {
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
	if !w.brief && l.Share() < 1 {
		text += w.stillNeeds(k)
	}
	w.line(state, text, k.Source)
	for _, g := range l.Gaps {
		w.line(None, "Nobody read it in the "+safety.Span(w.gapBefore(g))+" before "+w.clock(g.Minute)+": the colder end was counted", safety.Source{})
	}
}

// stillNeeds says when the target of a model will be reached, where the readings tell.
func (w *watching) stillNeeds(k safety.Kinetics) string {
	left, err := safety.Remaining(k, w.counted, w.warming())
	if err != nil {
		return ""
	}
	text, last := "", w.counted[len(w.counted)-1].Minute
	if left.Ahead.Why == "" {
		text += ", all of it " + w.between(last+left.Ahead.Minutes.Quick, last+left.Ahead.Minutes.Slow) + ", by conduction"
	}
	if !math.IsNaN(left.Holding) && left.Holding < 24*60 {
		text += ", in " + safety.Span(left.Holding) + " if it stays as it is"
	}
	return text
}

// gapBefore returns the minutes without a reading before one.
func (w *watching) gapBefore(g safety.Reading) float64 {
	for i := 1; i < len(w.counted); i++ {
		if w.counted[i] == g {
			return g.Minute - w.counted[i-1].Minute
		}
	}
	return 0
}
