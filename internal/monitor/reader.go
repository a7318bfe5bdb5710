package monitor

import (
	"math"
	"strconv"
	"strings"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// Deferral is what every screen and sheet of limits ends with.
const Deferral = "A comparison with published limits, not a judgement of the food. Local codes and licensed practice come first."

// A Reader is a dinner at a moment, as one cook reads it.
type Reader struct {
	Dinner *dinner.Live
	Now    int64          // Unix milliseconds, by the device's corrected clock
	Offset int            // minutes that the wall clock is ahead of UTC
	Show   quantity.Prefs // how amounts and temperatures are shown
}

// A LimitState is the state of a limit.
type LimitState string

// The states of a limit. Ask means that a reading is not counted until somebody says
// whether it is right; None is for lines that compare with no limit.
const (
	None   LimitState = ""
	Open   LimitState = "open"
	Met    LimitState = "met"
	Failed LimitState = "failed"
	Asked  LimitState = "ask"
)

// amount writes an amount as this cook reads it.
func (r *Reader) amount(a quantity.Amount) string { return quantity.Show(a, r.Show) }

// Degrees writes a temperature as this cook reads it; where that is in °F, the °C
// stand beside it.
func (r *Reader) Degrees(c float64) string {
	if r.Show.System == quantity.US && !math.IsNaN(c) && math.Abs(c) < 1e6 {
		return quantity.ShowFahrenheit(c) + " (" + safety.Celsius(c) + ")"
	}
	return safety.Celsius(c)
}

// who returns the name on an event, else the end of its phone's name.
func (r *Reader) who(event, device string) string {
	if name := strings.TrimSpace(r.Dinner.Event(event).Who); name != "" {
		return name
	}
	return "phone " + device[max(0, len(device)-6):]
}

// wall returns a moment, in Unix milliseconds, by the cook's wall clock.
func (r *Reader) wall(ms int64) time.Time {
	return time.UnixMilli(ms).UTC().Add(time.Duration(max(-1440, min(1440, r.Offset))) * time.Minute)
}

// timeOfDay writes a moment as "14:05".
func (r *Reader) timeOfDay(ms int64) string {
	t := r.wall(ms)
	return two(t.Hour()) + ":" + two(t.Minute())
}

// dateTime writes a moment as "2027-06-12 14:05".
func (r *Reader) dateTime(ms int64) string {
	t := r.wall(ms)
	return strconv.Itoa(t.Year()) + "-" + two(int(t.Month())) + "-" + two(t.Day()) + " " + r.timeOfDay(ms)
}

// day writes a moment's day as a label does: "Sat 12 Jun 2027".
func (r *Reader) day(ms int64) string {
	t := r.wall(ms)
	return t.Weekday().String()[:3] + " " + strconv.Itoa(t.Day()) + " " + t.Month().String()[:3] + " " + strconv.Itoa(t.Year())
}

// two writes a number of the clock or the calendar with two digits.
func two(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}
