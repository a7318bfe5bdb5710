package monitor

import "hobside/internal/safety"

// keptCold compares readings with a check that sets a highest temperature.
func (w *watching) keptCold(own safety.Limit) {
	v := w.out
	limits := append([]safety.Limit{own}, safety.For(w.rules, safety.HoldCold, safety.Cooked)...)
	if len(w.counted) == 0 {
		v.Line = w.asks(own) + ". Not read yet."
		w.line(Open, w.asks(own)+": not read yet", own.Source)
		return
	}
	last := w.counted[len(w.counted)-1]
	holds, err := safety.Holding(limits, w.counted)
	if err != nil {
		return
	}
	for i, h := range holds {
		state := map[safety.State]LimitState{safety.Met: Met, safety.Failed: Failed}[h.State]
		text := w.limit(h.Limit) + ": " + string(h.State)
		if h.State == safety.Failed {
			text += ", " + w.Degrees(h.WorstC) + " at the worst"
		}
		w.line(state, text, h.Limit.Source)
		if i == 0 {
			v.State = state
		}
	}
	v.Line = w.Degrees(last.TempC) + " at " + w.clock(last.Minute) + "; " + w.asks(own) + "."
}
