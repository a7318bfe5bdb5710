package safety

import (
	"fmt"
	"math"
	"sort"
)

// Doubt is a reading that is not counted until the cook has confirmed or changed it.
type Doubt struct {
	At   int     // its index in the log
	Text string  // what is odd, and what to do
	AsC  float64 // its value in °C if the probe showed °F; NaN where that explains nothing
}

// The jump that is doubted where food only gets colder: our own working rule.
const (
	jumpK = 20.0 // a rise of this much in one step …
	nearK = 10.0 // … that is this near to the reading before once it is read as °F
)

// Sift returns the readings of a log that can be counted, in order of time, and a Doubt
// for each of the others: an impossible core temperature, a reading from the future (now
// is the present minute), and a second reading at the same moment. Where falling says
// that the food is being cooled or kept cold, a rise that °F explains is doubted too,
// unless a later reading repeats it. Nothing is corrected without asking.
func Sift(log []Reading, now float64, falling bool) (counted []Reading, doubts []Doubt) {
	order := make([]int, len(log))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return log[order[i]].Minute < log[order[j]].Minute })
	pending := -1 // a jump waiting for a second reading that says the same
	for _, i := range order {
		r := log[i]
		d := Doubt{At: i, AsC: math.NaN()}
		var last *Reading
		if len(counted) > 0 {
			last = &counted[len(counted)-1]
		}
		err := Plausible(r.TempC)
		switch {
		case math.IsNaN(r.Minute) || math.IsInf(r.Minute, 0):
			d.Text = "its time is not a number: enter it again"
		case err != nil:
			d.Text = err.Error()
			if c := FromF(r.TempC); Plausible(c) == nil && r.TempC > 110 {
				d.AsC = c
			}
		case r.Minute > now+1:
			d.Text = fmt.Sprintf("%s was read %s from now: a phone's clock was set; enter it again", Celsius(r.TempC), Span(r.Minute-now))
		case last != nil && r.Minute <= last.Minute:
			d.Text = fmt.Sprintf("%s was read at the same moment as %s: take one back", Celsius(r.TempC), Celsius(last.TempC))
		case falling && last != nil && r.TempC-last.TempC > jumpK && math.Abs(FromF(r.TempC)-last.TempC) <= nearK:
			if pending >= 0 && math.Abs(log[pending].TempC-r.TempC) <= 5 {
				counted = append(counted, r) // said twice: it is so
				continue
			}
			pending = i
			d.AsC = FromF(r.TempC)
			d.Text = fmt.Sprintf("%s after %s: did the probe show °F? That is %s", Celsius(r.TempC), Celsius(last.TempC), Celsius(d.AsC))
		default:
			counted = append(counted, r)
			continue
		}
		doubts = append(doubts, d)
	}
	return counted, doubts
}
