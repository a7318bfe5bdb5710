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
	AsC  float64 // its value in °C by the other unit; NaN where that explains nothing
	Was  string  // the unit that the probe then showed, "°F" or "°C"; "" where AsC is NaN
}

// Expected is what the readings of a step can be: by it the likelier of two units is told.
type Expected struct {
	Falling  bool    // it is cooled or kept cold
	HottestC float64 // a core above it is unlikely there: see [Hottest]; 0: not known
	FirstC   float64 // a first reading above it is unlikely there: see [Overshot]; 0: not known
	ColdestC float64 // what it is kept at, at most, where it is kept cold; 0: it is not
}

// Hottest returns the temperature in °C above which a core is unlikely: that of what
// heats it, of water that boils, or of the food in dry heat. targetC is the limit it is
// cooked to, 0 for none. Our own working values; a reading above is asked about, not
// refused.
func Hottest(class Class, w Warming, wet bool, targetC float64) float64 {
	hottest := boilC + 2
	switch {
	case wet || !class.raw():
	case class == Fish || class == Shellfish || class == Egg:
		hottest = 85
	default:
		hottest = 92
	}
	hottest = math.Max(hottest, targetC+12)
	if w.Known() && w.HighC < hottest {
		hottest = w.HighC + 1
	}
	return hottest
}

// Overshot returns the temperature in °C above which the first reading of a core in dry
// heat is unlikely, because a cook probes before the food is done: 15 K above the limit
// targetC that raw food is cooked to; 0 where nothing is known. Our own working value; a
// reading above is asked about once, not refused.
func Overshot(class Class, wet bool, targetC float64) float64 {
	if wet || targetC <= 0 || !class.raw() {
		return 0
	}
	return targetC + 15
}

// The jumps that are doubted where the other unit explains them: our own working rules.
const (
	jumpK      = 10.0 // a rise of this much where food only gets colder …
	nearK      = 10.0 // … that is this near to the reading before, or colder, once it is read as °F
	riseK      = 20.0 // a rise of this much where it is heated …
	riseAMin   = 2.0  // … at more than so many kelvin a minute
	coldFigure = 25.0 // a reading this warm where food is kept cold …
	coldAsF    = 15.0 // … that is at most this as °F
	fallK      = 15.0 // a fall of this much where the reading as °C goes on as before
)

// Sift returns the readings of a log that can be counted, in order of time, and a Doubt
// for each of the others: an impossible core temperature, a reading from the future (now
// is the present minute), a second reading at the same moment, and one that is likelier
// in the other unit, by the reading before it and by what is expected, unless a later
// reading repeats it. Nothing is corrected without asking.
func Sift(log []Reading, now float64, e Expected) (counted []Reading, doubts []Doubt) {
	order := make([]int, len(log))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(i, j int) bool { return log[order[i]].Minute < log[order[j]].Minute })
	pending := -1 // a reading in doubt that waits for a second one that says the same
	for _, i := range order {
		r := log[i]
		var last *Reading
		if len(counted) > 0 {
			last = &counted[len(counted)-1]
		}
		d := Doubt{At: i, AsC: math.NaN()}
		err := Plausible(r.TempC)
		switch {
		case math.IsNaN(r.Minute) || math.IsInf(r.Minute, 0):
			d.Text = "its time is not a number: enter it again"
		case err != nil:
			d.Text = err.Error()
			if c := FromF(r.TempC); Plausible(c) == nil && r.TempC > 110 {
				d.AsC, d.Was = c, "°F"
			}
		case r.Minute > now+1:
			d.Text = fmt.Sprintf("%s was read %s from now: a phone's clock was set; enter it again", Celsius(r.TempC), Span(r.Minute-now))
		case last != nil && r.Minute <= last.Minute:
			d.Text = fmt.Sprintf("%s was read at the same moment as %s: take one back", Celsius(r.TempC), Celsius(last.TempC))
		default:
			text, asC, was := e.otherUnit(r, last)
			if text == "" || pending >= 0 && math.Abs(log[pending].TempC-r.TempC) <= 5 { // said twice: it is so
				counted = append(counted, r)
				continue
			}
			pending = i
			d.Text, d.AsC, d.Was = text, asC, was
		}
		doubts = append(doubts, d)
	}
	return counted, doubts
}

// otherUnit returns the question about a reading that is likelier in the other unit,
// what it is then, and that unit; "" for a reading that is not.
func (e Expected) otherUnit(r Reading, last *Reading) (text string, asC float64, was string) {
	f := FromF(r.TempC)   // what it is if the probe showed °F and °C was entered
	c := r.TempC*9/5 + 32 // and the other way round
	if last == nil {
		switch {
		case f < -20:
		case e.ColdestC > 0 && r.TempC > coldFigure && f <= coldAsF:
			return fmt.Sprintf("%s where it is kept at %s at most: did the probe show °F? That is %s", Celsius(r.TempC), Celsius(e.ColdestC), Celsius(f)), f, "°F"
		case !e.Falling && e.HottestC > 0 && r.TempC > e.HottestC:
			return e.tooHot(r, f), f, "°F"
		case !e.Falling && e.FirstC > 0 && r.TempC > e.FirstC:
			return fmt.Sprintf("%s at the first reading, far above the limit: did the probe show °F? That is %s", Celsius(r.TempC), Celsius(f)), f, "°F"
		}
		return "", 0, ""
	}
	asked := fmt.Sprintf("%s after %s: did the probe show ", Celsius(r.TempC), Celsius(last.TempC))
	minutes := r.Minute - last.Minute
	switch {
	case e.Falling && r.TempC-last.TempC > jumpK && f >= -20 && f-last.TempC <= nearK:
		return asked + "°F? That is " + Celsius(f), f, "°F"
	case e.Falling && last.TempC-r.TempC > 2*fallK && minutes <= LongGap && c <= last.TempC && last.TempC-c <= nearK,
		!e.Falling && last.TempC-r.TempC > fallK && c >= last.TempC-3 && c <= 110:
		return asked + "°C, and was °F entered? That is " + Celsius(c), c, "°C"
	case e.Falling:
	case r.TempC-last.TempC > riseK && r.TempC-last.TempC > riseAMin*minutes && f >= last.TempC-3:
		return asked + "°F? That is " + Celsius(f), f, "°F"
	case e.HottestC > 0 && r.TempC > e.HottestC && last.TempC <= e.HottestC && f >= last.TempC-nearK:
		return e.tooHot(r, f), f, "°F"
	}
	return "", 0, ""
}

// tooHot asks about a reading above what is expected.
func (e Expected) tooHot(r Reading, asC float64) string {
	return fmt.Sprintf("%s is more than a core gets to here, about %s: did the probe show °F? That is %s", Celsius(r.TempC), Celsius(e.HottestC), Celsius(asC))
}
