package safety

import (
	"fmt"
	"math"
)

// State is how a limit stands.
type State string

// The states of a limit for cooling.
const (
	NotBegun  State = "not begun"  // still warmer than where the clock starts
	Running   State = "running"    // the clock runs
	Met       State = "met"        // reached in time
	Failed    State = "not met"    // the time is over, or the forecast says it will be
	NotJudged State = "not judged" // the row has no temperature to judge by, or the log does not tell
	Maybe     State = "depends"    // a forecast: met at the quick end of the range only
)

// Stage is one limit for cooling, set against a log or a forecast.
type Stage struct {
	Limit Limit
	State State
	Took  Band    // minutes from where its clock started; +Inf: never. For a log all three are one
	Left  float64 // for Running: minutes left
}

// Text says what was compared with what, and whose limit it is.
func (s Stage) Text() string {
	out := fmt.Sprintf("%s: %s", s.State, s.Limit)
	switch s.State {
	case Running:
		out += ", " + Span(s.Left) + " left"
	case Met, Failed, Maybe:
		out += ", " + s.Took.String()
	}
	return out + "; " + s.Limit.Source.String() + "; local codes come first"
}

// String is the band as a cook reads it: "1 h 40 min", "1 h to 2 h 10 min", "never".
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

// CoolingRules are the limits of a rule set for cooling cooked food: under the
// US rules the two stages, the second counted from the start of the first.
func CoolingRules(rules Rules) []Limit {
	var out []Limit
	for _, l := range For(rules, Cool, Cooked) {
		if l.Source.Section == "3-501.14(A)(1)" || l.Source.Section == "3-501.14(A)(2)" || rules != US {
			out = append(out, l)
		}
	}
	return out
}

// Stages sets the forecast against limits for cooling. Each has its own clock,
// which starts when the centre passes the limit's own temperature, or at the
// start where it has none or is colder already.
func (f *Forecast) Stages(limits []Limit) []Stage {
	var out []Stage
	for _, l := range limits {
		if l.Kind != Cool {
			continue
		}
		s := Stage{Limit: l, State: NotJudged}
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

// Cooled sets a log of core temperatures against limits for cooling; now is the
// minute it is, on the clock of the log. The clock of a limit starts where the
// log passes its temperature; what was colder when the log began has been
// cooling for a time nobody knows, and is not judged as met.
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

func cooled(l Limit, log []Reading, now float64) Stage {
	s := Stage{Limit: l}
	begun, late := log[0].Minute, false
	if l.HasSpan {
		if late = log[0].TempC < l.FromC; !late {
			// The last time it fell under where the clock starts: warmed again, it starts again.
			begun = math.NaN()
			for i := 1; i < len(log); i++ {
				if log[i-1].TempC >= l.FromC && log[i].TempC < l.FromC {
					begun = crossing(log[i-1], log[i], l.FromC)
					if log[i].Minute-log[i-1].Minute > LongGap {
						begun = log[i-1].Minute // nobody looked: it may have been there at once
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
