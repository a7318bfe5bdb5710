package safety

import "math"

// Reaching says in how many minutes from the last reading a limit of the "at
// least" kind will be met, time at the temperature and all, if the core goes on
// at the rate of the last two readings. ok is false where it will not at that
// rate, where one reading tells no rate, and where the limit has no temperature.
// It is 0 when the limit is met already.
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
			return 0, false // it will be under again before the time is over
		}
		return math.Max(0, need-had), true
	}
	if slope <= 0 {
		return 0, false
	}
	return (l.TempC-last.TempC)/slope + need, true
}

// sinceOver is the minute since which the log has been at or over the limit's
// temperature without a break.
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
