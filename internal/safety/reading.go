package safety

import (
	"fmt"
	"math"
)

// Reading is one logged core temperature. Minutes count from any start, the
// same for all readings of a log.
type Reading struct {
	Minute float64
	TempC  float64
}

// LongGap is the time between two readings, in minutes, above which nothing is
// read into the space between them but the worse of the two.
const LongGap = 15.0

// ProbeError says that a reading, or a log of them, cannot be what it says.
type ProbeError struct {
	At  int // which reading, counted from 1; 0: no one reading
	Msg string
}

// Error is what is wrong and what to do.
func (e *ProbeError) Error() string {
	if e.At == 0 {
		return e.Msg
	}
	return fmt.Sprintf("reading %d: %s", e.At, e.Msg)
}

// Plausible says whether a probe in food can show c °C. Above the boil of salt
// water the likeliest reason is a probe set to °F, and the error asks that.
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

// FromF turns °F into °C. It is for temperatures; a difference has no 32 in it.
func FromF(f float64) float64 { return (f - 32) * 5 / 9 }

// checkLog finds the first reading that cannot be, or a clock that runs back.
func checkLog(log []Reading) error {
	for i, r := range log {
		if err := Plausible(r.TempC); err != nil {
			return &ProbeError{At: i + 1, Msg: err.Error()}
		}
		if math.IsNaN(r.Minute) || math.IsInf(r.Minute, 0) {
			return &ProbeError{At: i + 1, Msg: "its time is no number"}
		}
		if i > 0 && r.Minute <= log[i-1].Minute {
			return &ProbeError{At: i + 1, Msg: "it is not later than the one before; a clock was set, or one was logged twice: amend its time"}
		}
	}
	return nil
}

// crossing is when the line from a to b passes temperature c, which lies between them.
func crossing(a, b Reading, c float64) float64 {
	if a.TempC == b.TempC {
		return a.Minute
	}
	return a.Minute + (b.Minute-a.Minute)*(c-a.TempC)/(b.TempC-a.TempC)
}
