package safety

import "math"

// Reaching returns in how many minutes from the last reading a limit of the "at least"
// kind will be met, its time at the temperature included, if the core goes on at the
// rate of the last two readings. It is 0 when the limit is already met. ok is false
// when it will not be met at that rate, when there is only one reading below it, and
// when the limit has no temperature.
func Reaching(l Limit, log []Reading) (minutes float64, ok bool) {
	held, err := Against([]Limit{l}, log)
	if err != nil || len(held) == 0 {
		return 0, false
	}
	if held[0].Met {
		return 0, true
	}
	last := log[len(log)-1]
	need := 0.0
	if l.HasTime && !l.AtOnce && !l.Stand {
		need = l.Minutes
	}
	slope := 0.0
	if len(log) > 1 {
		before := log[len(log)-2]
		slope = (last.TempC - before.TempC) / (last.Minute - before.Minute)
	}
	if last.TempC >= l.TempC {
		had := last.Minute - sinceOver(l, log)
		if slope < 0 && (last.TempC-l.TempC)/-slope < need-had {
			return 0, false // it falls under the temperature before the time is over
		}
		return math.Max(0, need-had), true
	}
	if slope <= 0 {
		return 0, false
	}
	return (l.TempC-last.TempC)/slope + need, true
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
