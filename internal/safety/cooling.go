package safety

import (
	"math"
)

// State reports whether a limit is met.
type State string

// The states of a limit for cooling.
const (
	NotBegun  State = "not begun"  // still warmer than the temperature at which its clock starts
	Running   State = "running"    // the clock runs
	Met       State = "met"        // reached in time
	Failed    State = "not met"    // the time is over, or will be by the forecast
	NotJudged State = "not judged" // the row has no temperature to judge by, or the log began too late
	Maybe     State = "depends"    // by a forecast: met at the quick end of the range only
)

// Stage is one limit for cooling, compared with a log or a forecast.
type Stage struct {
	Limit Limit
	State State
	Took  Band    // minutes from the start of its clock; +Inf: never; for a log all three are equal
	Left  float64 // for Running: minutes left
}

// String returns the band as a cook reads it: "1 h 40 min", "1 h to 2 h 10 min", "never".
func (b Band) String() string {
	word := func(m float64) string {
		if math.IsInf(m, 1) || math.IsNaN(m) {
			return "never"
		}
		return Span(m)
	}
	quick, slow := word(b.Quick), word(b.Slow)
	if quick == slow {
		return slow
	}
	return quick + " to " + slow
}

// CoolingRules returns the limits of a rule set for cooling cooked food. Under the US
// rules these are two stages, the second counted from the start of the first.
func CoolingRules(rules Rules) []Limit {
	var out []Limit
	for _, l := range For(rules, Cool, Cooked) {
		if l.Source.Section == "3-501.14(A)(1)" || l.Source.Section == "3-501.14(A)(2)" || rules != US {
			out = append(out, l)
		}
	}
	return out
}

// Stages compares the forecast with limits for cooling; others are left out. Each
// limit has its own clock. It starts when the centre passes the limit's temperature,
// or at the start where the limit has none or the food is already colder.
func (f *Forecast) Stages(limits []Limit) []Stage {
	var out []Stage
	for _, l := range limits {
		if l.Kind != Cool {
			continue
		}
		s := Stage{Limit: l, State: NotJudged}
		l = l.compared()
		if l.HasSpan || l.HasTo {
			var took [3]float64
			for i := range f.courses {
				from := 0.0
				if l.HasSpan {
					from = f.cools(i, l.FromC)
				}
				took[i] = f.cools(i, l.ToC) - from
				if f.FromC <= l.ToC {
					took[i] = 0
				}
				if math.IsNaN(took[i]) {
					took[i] = math.Inf(1)
				}
			}
			s.Took = Band{took[0], took[1], took[2]}
			switch {
			case s.Took.Slow <= l.Minutes:
				s.State = Met
			case s.Took.Quick <= l.Minutes:
				s.State = Maybe
			default:
				s.State = Failed
			}
		}
		out = append(out, s)
	}
	return out
}

// Cooled compares a log of core temperatures with limits for cooling; others are left
// out. now is the present minute on the clock of the log. The clock of a limit starts
// when the log passes the limit's temperature. Food that was colder when the log began
// has been cooling for an unknown time, and its limit is never judged as met. Errors
// are as for [Against].
func Cooled(limits []Limit, log []Reading, now float64) ([]Stage, error) {
	if len(log) == 0 {
		return nil, &ProbeError{Msg: "no reading yet"}
	}
	if err := checkLog(log); err != nil {
		return nil, err
	}
	now = math.Max(now, log[len(log)-1].Minute)
	var out []Stage
	for _, l := range limits {
		if l.Kind != Cool {
			continue
		}
		s := Stage{Limit: l, State: NotJudged}
		if l.HasSpan || l.HasTo {
			s = cooled(l, log, now)
		}
		out = append(out, s)
	}
	return out, nil
}

// cooled compares a log with one limit for cooling.
func cooled(l Limit, log []Reading, now float64) Stage {
	s := Stage{Limit: l}
	l = l.compared()
	begun, late := log[0].Minute, false
	if l.HasSpan {
		if late = log[0].TempC < l.FromC; !late {
			// The last time that it fell under the temperature at which the clock
			// starts: food that was warmed again starts again.
			begun = math.NaN()
			for i := 1; i < len(log); i++ {
				if log[i-1].TempC >= l.FromC && log[i].TempC < l.FromC {
					begun = crossing(log[i-1], log[i], l.FromC)
					if log[i].Minute-log[i-1].Minute > LongGap {
						begun = log[i-1].Minute // no reading in between: it may have passed at once
					}
				}
			}
			if math.IsNaN(begun) || log[len(log)-1].TempC >= l.FromC {
				s.State = NotBegun
				return s
			}
		}
	}
	for i, r := range log {
		if r.Minute < begun || r.TempC > l.ToC {
			continue
		}
		at := r.Minute
		if i > 0 && log[i-1].TempC > l.ToC && r.Minute-log[i-1].Minute <= LongGap {
			at = math.Max(begun, crossing(log[i-1], r, l.ToC))
		}
		took := at - begun
		s.Took = Band{took, took, took}
		switch {
		case took > l.Minutes:
			s.State = Failed
		case late:
			s.State = NotJudged
		default:
			s.State = Met
		}
		return s
	}
	took := now - begun
	s.Took = Band{math.Inf(1), math.Inf(1), math.Inf(1)}
	if took > l.Minutes {
		s.State = Failed
		return s
	}
	s.State, s.Left = Running, l.Minutes-took
	return s
}
