package safety

import (
	"fmt"
	"math"
)

// Held is a log set against one limit for cooking, re-heating or hot holding.
type Held struct {
	Limit   Limit
	Met     bool
	At      float64 // the minute it was met, with Met
	Minutes float64 // longest time in one piece at or over the limit's temperature
	MaxC    float64 // hottest reading
}

// Text says what was compared with what, and whose limit it is.
func (h Held) Text() string {
	got := fmt.Sprintf("hottest %s", Celsius(h.MaxC))
	if h.Minutes > 0 {
		got = fmt.Sprintf("%s at or over %s", Span(h.Minutes), Celsius(h.Limit.TempC))
	}
	word := "not reached"
	if h.Met {
		word = "reached"
	}
	return fmt.Sprintf("%s: %s; %s; %s; local codes come first", word, h.Limit, got, h.Limit.Source)
}

// Against sets a log of core temperatures, in order of time, against limits of
// the "at least" kind, each by the letter: the temperature without a break for
// the time. Lower temperatures held longer do not count here, unless the code
// has a row of its own for them; for what a log stands for see [Lethality].
// Limits without a temperature are left out.
func Against(limits []Limit, log []Reading) ([]Held, error) {
	if len(log) == 0 {
		return nil, &ProbeError{Msg: "no reading yet"}
	}
	if err := checkLog(log); err != nil {
		return nil, err
	}
	var out []Held
	for _, l := range limits {
		if !l.HasTemp || l.Bound != AtLeast {
			continue
		}
		out = append(out, against(l, log))
	}
	return out, nil
}

func against(l Limit, log []Reading) Held {
	h := Held{Limit: l, MaxC: math.Inf(-1)}
	need := 0.0
	if l.HasTime && !l.AtOnce && !l.Stand {
		need = l.Minutes
	}
	begun := math.NaN()
	for i, r := range log {
		h.MaxC = math.Max(h.MaxC, r.TempC)
		long := i > 0 && r.Minute-log[i-1].Minute > LongGap
		if r.TempC < l.TempC {
			if !math.IsNaN(begun) && !long {
				h.keep(crossing(log[i-1], r, l.TempC), begun, need)
			}
			begun = math.NaN()
			continue
		}
		if math.IsNaN(begun) {
			begun = r.Minute
			if i > 0 && !long {
				begun = crossing(log[i-1], r, l.TempC)
			}
		}
		h.keep(r.Minute, begun, need)
	}
	return h
}

// keep notes that the temperature has been held from begun until now. The small
// allowance is for the arithmetic of a crossing, not for the cook.
func (h *Held) keep(now, begun, need float64) {
	const fuzz = 1e-9
	h.Minutes = math.Max(h.Minutes, now-begun)
	if !h.Met && now-begun >= need-fuzz {
		h.Met, h.At = true, begun+need
	}
}
