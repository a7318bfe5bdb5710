package safety

import (
	"math"
)

// Held is a log compared with one limit for cooking, re-heating or hot holding.
type Held struct {
	Limit   Limit
	Met     bool
	At      float64 // the minute at which it was met; counts with Met
	Minutes float64 // longest time without a break at or over the limit's temperature
	MaxC    float64 // hottest reading
}

// Against compares a log of core temperatures, in order of time, with limits of the
// "at least" kind, each by the letter: its temperature, without a break, for its time.
// A lower temperature held longer counts only where the code has a row for it; see
// [Lethality] for what a log amounts to. Limits without a temperature are left out. A
// log without a reading, out of order or with a reading that no food can have is an
// error.
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

// against compares a log with one limit.
func against(l Limit, log []Reading) Held {
	h := Held{Limit: l, MaxC: math.Inf(-1)}
	l = l.compared()
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

// keep records that the temperature was held from begun until now, in minutes. fuzz
// allows for rounding in the arithmetic of a crossing and for nothing else.
func (h *Held) keep(now, begun, need float64) {
	const fuzz = 1e-9
	h.Minutes = math.Max(h.Minutes, now-begun)
	if !h.Met && now-begun >= need-fuzz {
		h.Met, h.At = true, begun+need
	}
}
