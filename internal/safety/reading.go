package safety

import (
	"fmt"
	"math"
)

// Reading is one logged core temperature. Minutes count from any start, the same for
// all readings of a log.
type Reading struct {
	Minute float64
	TempC  float64
}

// LongGap is the time between two readings, in minutes, above which no straight line is
// drawn between them: the worse of the two is taken for the whole gap. Our own working
// rule.
const LongGap = 15.0

// ProbeError says that a reading, or a log of readings, cannot be right.
type ProbeError struct {
	At  int // which reading, counted from 1; 0: no one reading
	Msg string
}

// Error returns what is wrong and what to do.
func (e *ProbeError) Error() string {
	if e.At == 0 {
		return e.Msg
	}
	return fmt.Sprintf("reading %d: %s", e.At, e.Msg)
}

// Plausible returns an error where a probe in food cannot show c °C. Above 110 °C, which
// no salt water reaches, the likeliest reason is a probe set to °F, and the error says
// so; 230 °F is 110 °C.
func Plausible(c float64) error {
	switch {
	case math.IsNaN(c) || math.IsInf(c, 0):
		return &ProbeError{Msg: "no number; read the probe again"}
	case c < -90:
		return &ProbeError{Msg: Celsius(c) + " is colder than any freezer; read the probe again"}
	case c > 110 && c <= 230:
		return &ProbeError{Msg: fmt.Sprintf("the core of food can't be at %s; if the probe shows °F that is %s: enter it as °F", Celsius(c), Celsius(FromF(c)))}
	case c > 230:
		return &ProbeError{Msg: "the core of food can't be at " + Celsius(c) + "; read the probe again"}
	}
	return nil
}

// FromF returns in °C a temperature in °F. It is not for a difference of temperatures.
func FromF(f float64) float64 { return (f - 32) * 5 / 9 }

// checkLog returns an error for the first reading that is impossible or not later than
// the one before.
func checkLog(log []Reading) error {
	for i, r := range log {
		if err := Plausible(r.TempC); err != nil {
			return &ProbeError{At: i + 1, Msg: err.Error()}
		}
		if math.IsNaN(r.Minute) || math.IsInf(r.Minute, 0) {
			return &ProbeError{At: i + 1, Msg: "its time is not a number"}
		}
		if i > 0 && r.Minute <= log[i-1].Minute {
			return &ProbeError{At: i + 1, Msg: "it is not later than the one before; a clock was set, or one was logged twice: amend its time"}
		}
	}
	return nil
}

// crossing returns the minute at which the line from a to b passes temperature c, which
// is between them.
func crossing(a, b Reading, c float64) float64 {
	if a.TempC == b.TempC {
		return a.Minute
	}
	return a.Minute + (b.Minute-a.Minute)*(c-a.TempC)/(b.TempC-a.TempC)
}
