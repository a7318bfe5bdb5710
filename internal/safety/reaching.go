package safety

import "math"

// Ahead is when something will be reached, in minutes from the last reading.
type Ahead struct {
	Minutes Band
	Why     string // why there is no time; "" where there is one
}

// There is a time only where its band is narrow enough to act on: our own working rule.
const (
	narrowShare   = 1.6
	narrowMinutes = 10.0
)

// Reaching returns when a limit of the "at least" kind will be met, its time at the
// temperature included, by conduction: every course that the readings and the medium
// allow, the quickest and the slowest of them. It is 0 when the limit is already met.
// Where the readings do not tell (one reading below the limit, a core that does not
// rise, a medium that is not known, courses too far apart) Why says so.
func Reaching(l Limit, log []Reading, w Warming) Ahead {
	held, err := Against([]Limit{l}, log)
	if err != nil {
		return Ahead{Why: err.Error()}
	}
	if len(held) == 0 {
		return Ahead{Why: "the limit has no temperature"}
	}
	if held[0].Met {
		return Ahead{}
	}
	l = l.compared()
	last := log[len(log)-1]
	need := 0.0
	if l.HasTime && !l.AtOnce && !l.Stand {
		need = l.Minutes
	}
	if last.TempC >= l.TempC {
		return holdsOn(l, log, need)
	}
	if why := tellsNothing(log, w); why != "" {
		return Ahead{Why: why}
	}
	return ahead(warmCourses(rising(log), w), func(c *warmCourse) float64 { return c.until(l.TempC) + need })
}

// holdsOn returns when a core that is over the limit's temperature has been there for
// need minutes; there is no time where it falls too fast.
func holdsOn(l Limit, log []Reading, need float64) Ahead {
	last := log[len(log)-1]
	had := last.Minute - sinceOver(l, log)
	if len(log) > 1 {
		before := log[len(log)-2]
		slope := (last.TempC - before.TempC) / (last.Minute - before.Minute)
		if slope < 0 && (last.TempC-l.TempC)/-slope < need-had {
			return Ahead{Why: "it falls under the temperature before the time is over"}
		}
	}
	m := math.Max(0, need-had)
	return Ahead{Minutes: Band{m, m, m}}
}

// tellsNothing returns why a log below a limit gives no time, "" where it may.
func tellsNothing(log []Reading, w Warming) string {
	switch {
	case len(log) < 2:
		return "take a second reading to see when"
	case log[len(log)-1].TempC <= log[len(log)-2].TempC:
		return "it is not rising"
	case !w.Known():
		return "the step gives no temperature that it is heated by, so no time can be worked out"
	}
	return ""
}

// rising returns the end of a log from its last lowest reading on: what came before, the
// cold of a fridge or of a rest, tells nothing of how it is heated now.
func rising(log []Reading) []Reading {
	from := 0
	for i := range log {
		if log[i].TempC <= log[from].TempC {
			from = i
		}
	}
	return log[from:]
}

// ahead returns the band of what courses give, where it is narrow enough.
func ahead(courses []warmCourse, minutes func(*warmCourse) float64) Ahead {
	b := Band{Quick: math.Inf(1)}
	for i := range courses {
		m := minutes(&courses[i])
		b.Quick, b.Slow = math.Min(b.Quick, m), math.Max(b.Slow, m)
	}
	switch {
	case len(courses) == 0:
		return Ahead{Why: "the readings fit no even heating: read it again"}
	case math.IsInf(b.Slow, 1) || b.Slow > narrowShare*b.Quick && b.Slow-b.Quick > narrowMinutes:
		return Ahead{Why: "too early to say when: read it again"}
	}
	b.Mid = (b.Quick + b.Slow) / 2
	return Ahead{Minutes: b}
}

// sinceOver returns the minute from which the log has been at or over the limit's
// temperature without a break until its last reading.
func sinceOver(l Limit, log []Reading) float64 {
	at := log[len(log)-1].Minute
	for i := len(log) - 1; i >= 0 && log[i].TempC >= l.TempC; i-- {
		at = log[i].Minute
		if i > 0 && log[i-1].TempC < l.TempC && log[i].Minute-log[i-1].Minute <= LongGap {
			at = crossing(log[i-1], log[i], l.TempC)
		}
	}
	return at
}
