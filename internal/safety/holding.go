package safety

import (
	"fmt"
	"math"
)

// Hold is a log of held food set against one limit for holding it hot or cold, or
// for thawing it in water.
type Hold struct {
	Limit   Limit
	Beyond  float64 // the temperature it was set against
	State   State   // Met, Failed or NotJudged
	Minutes float64 // on the wrong side, in all
	Periods int     // how many times it went there
	WorstC  float64 // the reading furthest on the wrong side, or nearest to it
}

// Text says what was compared with what, and whose limit it is.
func (h Hold) Text() string {
	where := Celsius(h.Beyond) + ", worst " + Celsius(h.WorstC)
	side := "over "
	if h.Limit.Kind == HoldHot {
		side = "under "
	}
	out := "on the right side of " + where + " as far as it was read"
	if h.Periods > 0 {
		out = fmt.Sprintf("%s %s%s", Span(h.Minutes), side, where)
		if h.Periods > 1 {
			out += fmt.Sprintf(", %d times", h.Periods)
		}
	}
	return fmt.Sprintf("%s: %s; %s; %s; local codes come first", h.State, h.Limit, out, h.Limit.Source)
}

// Holding sets a log of temperatures, in order of time, against limits for
// holding hot, holding cold and thawing. A limit with a temperature is not met
// once a reading lies on the wrong side of it. A limit with a time alone (one
// period on display, the UK rules) is set against the temperature of the law in
// the same list: one period at most, no longer than the time; without such a
// temperature in the list it is not judged. Over a gap longer than LongGap the
// worse of its two ends is counted.
func Holding(limits []Limit, log []Reading) ([]Hold, error) {
	if len(log) == 0 {
		return nil, &ProbeError{Msg: "no reading yet"}
	}
	if err := checkLog(log); err != nil {
		return nil, err
	}
	var out []Hold
	for _, l := range limits {
		if l.Kind != HoldHot && l.Kind != HoldCold && l.Kind != Thaw {
			continue
		}
		at, ok := l.TempC, l.HasTemp
		if !ok {
			at, ok = lawful(limits, l)
		}
		h := Hold{Limit: l, Beyond: at, State: NotJudged}
		if ok {
			h.count(log)
			h.State = Met
			if l.HasTemp && h.Periods > 0 || !l.HasTemp && (h.Periods > 1 || h.Minutes > l.Minutes) {
				h.State = Failed
			}
		}
		out = append(out, h)
	}
	return out, nil
}

// lawful is the temperature of the law, not of advice, that a limit of the same
// kind and rules in the list has.
func lawful(limits []Limit, of Limit) (float64, bool) {
	for _, l := range limits {
		if l.Kind == of.Kind && l.Rules == of.Rules && l.HasTemp && !l.Advice {
			return l.TempC, true
		}
	}
	return 0, false
}

// count adds up what lies on the wrong side. For hot food the signs are turned,
// so that the wrong side is always over.
func (h *Hold) count(log []Reading) {
	sign := 1.0
	if h.Limit.Kind == HoldHot {
		sign = -1
	}
	limit, worst, over := sign*h.Beyond, math.Inf(-1), false
	for i, r := range log {
		r.TempC *= sign
		worst = math.Max(worst, r.TempC)
		if r.TempC > limit && !over {
			h.Periods++
		}
		over = r.TempC > limit
		if i == 0 {
			continue
		}
		a := log[i-1]
		a.TempC *= sign
		switch {
		case a.TempC <= limit && r.TempC <= limit:
		case a.TempC > limit && r.TempC > limit, r.Minute-a.Minute > LongGap:
			h.Minutes += r.Minute - a.Minute
		case r.TempC > limit:
			h.Minutes += r.Minute - crossing(a, r, limit)
		default:
			h.Minutes += crossing(a, r, limit) - a.Minute
		}
	}
	h.WorstC = sign * worst
}

// Reheated sets a log of core temperatures against the limits of re-heating that
// have a clock: from 5 °C to 74 °C within 2 h under the US rules. For the
// temperature that has to be reached see [Against]; now and the rules of the
// clock are as in [Cooled].
func Reheated(limits []Limit, log []Reading, now float64) ([]Stage, error) {
	if len(log) == 0 {
		return nil, &ProbeError{Msg: "no reading yet"}
	}
	if err := checkLog(log); err != nil {
		return nil, err
	}
	// Warming is cooling with the signs turned.
	turned := make([]Reading, len(log))
	for i, r := range log {
		turned[i] = Reading{r.Minute, -r.TempC}
	}
	var out []Stage
	for _, l := range limits {
		if l.Kind != Reheat || !l.HasSpan {
			continue
		}
		t := l
		t.FromC, t.ToC = -l.FromC, -l.ToC
		s := cooled(t, turned, math.Max(now, log[len(log)-1].Minute))
		s.Limit = l
		out = append(out, s)
	}
	return out, nil
}
