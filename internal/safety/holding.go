package safety

import (
	"math"
)

// Hold is a log of held food compared with one limit for holding it hot or cold, or
// for thawing it in water.
type Hold struct {
	Limit   Limit
	Beyond  float64 // the temperature it was compared with
	State   State   // Met, Failed or NotJudged
	Minutes float64 // on the wrong side, in total
	Periods int     // how many times it went to the wrong side
	WorstC  float64 // the reading furthest on the wrong side, or nearest to it
}

// Holding compares a log of temperatures, in order of time, with limits for holding
// hot, holding cold and thawing; others are left out. A limit with a temperature is not
// met once a reading is on its wrong side. A limit with a time alone (one period on
// display, in the UK rules) is compared with the temperature of the law in the same
// list: one period at most, no longer than the time. Without such a temperature it is
// not judged. In a gap longer than [LongGap] the worse of its two ends is counted.
// Errors are as for [Against].
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
		at, ok := l.compared().TempC, l.HasTemp
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

// lawful returns the temperature of a limit of the same kind and rules in the list
// that is law and not advice; ok is false where there is none.
func lawful(limits []Limit, of Limit) (float64, bool) {
	for _, l := range limits {
		if l.Kind == of.Kind && l.Rules == of.Rules && l.HasTemp && !l.Advice {
			return l.compared().TempC, true
		}
	}
	return 0, false
}

// count adds up the time on the wrong side. For hot food the signs are reversed, so
// that the wrong side is always above.
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
