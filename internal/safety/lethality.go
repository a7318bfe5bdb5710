package safety

import "math"

// Kinetics is a log-linear model of how an organism dies: at RefC one tenth is left
// after D minutes, and at Z kelvin more in a tenth of that time.
type Kinetics struct {
	Name    string
	RefC    float64 // reference temperature
	Z       float64 // kelvin for a factor of ten
	D       float64 // minutes for one log at RefC
	Logs    float64 // what the source asks for, in log10
	LowC    float64 // nothing is counted below it: there is no published basis
	HighC   float64 // above it the rate is that at HighC
	Source  Source
	Remarks string
}

// The models that have a basis in the sources at hand. Each is for its own food.
var (
	// Listeria is the 6-log convention behind "70 °C for 2 minutes".
	Listeria = Kinetics{Name: "Listeria monocytogenes, 6 log", RefC: 70, Z: 7.5, D: 2.0 / 6, Logs: 6, LowC: 60, HighC: 90,
		Source:  Source{"ACMSF 1992; EC SANCO guidance on shelf-life studies 2008 (70 °C, 2 min)", "", Read},
		Remarks: "z = 7.5 K from memory; 70 °C for 2 min was read"}
	// SalmonellaBeef is the model behind the table for whole roasts. Not for poultry.
	SalmonellaBeef = Kinetics{Name: "Salmonella in beef, 6.5 log", RefC: 60, Z: 10.01 * 5 / 9, D: 12.0 / 6.5, Logs: 6.5, LowC: 54.4, HighC: 70,
		Source:  Source{"USDA FSIS Appendix A (1999), fitted to its 6.5-log column", "", Computed},
		Remarks: "beef, pork and lamb in one piece; not for poultry"}
	// STEC is for minced meat, such as burgers.
	STEC = Kinetics{Name: "E. coli O157, 6 log", RefC: 70, Z: 6, D: 2.0 / 6, Logs: 6, LowC: 60, HighC: 80,
		Source:  Source{"ACMSF 2007 equivalents (60 °C 93 min, 65 °C 14 min, 70 °C 2 min)", "", Computed},
		Remarks: "as quoted in a secondary text"}
)

// KineticsFor returns the model for raw food of a class; ok is false where there is no
// basis. Poultry has no model under the US rules here, and the general 6-log convention
// under UK advice.
func KineticsFor(rules Rules, class Class) (k Kinetics, ok bool) {
	switch {
	case class == Roast && rules == US:
		return SalmonellaBeef, true
	case class == Minced && rules == UK:
		return STEC, true
	case rules == UK && class.raw():
		return Listeria, true
	}
	return Kinetics{}, false
}

// Rate returns how many minutes at RefC one minute at c °C is worth.
func (k Kinetics) Rate(c float64) float64 {
	if c < k.LowC {
		return 0
	}
	return math.Pow(10, (math.Min(c, k.HighC)-k.RefC)/k.Z)
}

// Lethal is what a log of core temperatures has reached.
type Lethal struct {
	Kinetics Kinetics
	Minutes  float64   // equivalent minutes at RefC
	Logs     float64   // log10 reached; compare with Kinetics.Logs
	MaxC     float64   // hottest reading
	Gaps     []Reading // readings that follow a gap longer than LongGap; in it the colder end was counted
}

// Share returns the part of the target that has been reached, 1 for all of it.
func (l Lethal) Share() float64 { return l.Logs / l.Kinetics.Logs }

// Lethality integrates the lethal rate over a log of core temperatures, at least two,
// in order of time. Between readings the temperature is taken as a straight line, and
// the integral over the line is exact, so that more readings on it change nothing. In a
// gap longer than [LongGap] the colder end is counted. Errors are as for [Against].
func Lethality(k Kinetics, log []Reading) (Lethal, error) {
	if err := checkLog(log); err != nil {
		return Lethal{}, err
	}
	if len(log) < 2 {
		return Lethal{}, &ProbeError{Msg: "one reading has no length of time: log a second"}
	}
	out := Lethal{Kinetics: k, MaxC: log[0].TempC}
	for i := 1; i < len(log); i++ {
		a, b := log[i-1], log[i]
		out.MaxC = math.Max(out.MaxC, b.TempC)
		if b.Minute-a.Minute > LongGap {
			low := math.Min(a.TempC, b.TempC)
			a.TempC, b.TempC = low, low
			out.Gaps = append(out.Gaps, log[i])
		}
		out.Minutes += k.between(a, b)
	}
	out.Logs = out.Minutes / k.D
	return out, nil
}

// between returns the integral of the rate over the line from a to b, in minutes.
func (k Kinetics) between(a, b Reading) float64 {
	if a.TempC > b.TempC { // only the length of time counts, not the direction
		a.TempC, b.TempC = b.TempC, a.TempC
	}
	dt, rise := b.Minute-a.Minute, b.TempC-a.TempC
	if rise < 1e-9 {
		return dt * k.Rate(a.TempC)
	}
	perK := dt / rise
	low, high := math.Max(a.TempC, k.LowC), math.Min(b.TempC, k.HighC)
	sum := 0.0
	if high > low {
		// the integral of 10^((T-ref)/z) dT is z/ln 10 times itself
		sum = perK * k.Z / math.Ln10 * (math.Pow(10, (high-k.RefC)/k.Z) - math.Pow(10, (low-k.RefC)/k.Z))
	}
	if b.TempC > k.HighC {
		sum += perK * (b.TempC - math.Max(a.TempC, k.HighC)) * k.Rate(k.HighC)
	}
	return sum
}

// Left is when the target of a model will be reached, in minutes from the last reading.
type Left struct {
	Holding float64 // if the core stays as it is; NaN: never so
	Ahead   Ahead   // by conduction
}

// Remaining returns when the target of a model will be reached after a log, in a medium.
// Both times are 0 when it is already reached. Errors are as for [Lethality].
func Remaining(k Kinetics, log []Reading, w Warming) (Left, error) {
	l, err := Lethality(k, log)
	if err != nil {
		return Left{}, err
	}
	need := k.Logs*k.D - l.Minutes
	if need <= 0 {
		return Left{}, nil
	}
	out := Left{Holding: math.NaN()}
	if r := k.Rate(log[len(log)-1].TempC); r > 0 {
		out.Holding = need / r
	}
	if why := tellsNothing(log, w); why != "" {
		out.Ahead.Why = why
		return out, nil
	}
	out.Ahead = ahead(warmCourses(rising(log), w), func(c *warmCourse) float64 { return k.along(c, need) })
	return out, nil
}

// along returns the minutes until a course has been worth need minutes at the reference
// temperature, +Inf where two days are not enough.
func (k Kinetics) along(c *warmCourse, need float64) float64 {
	start := c.until(k.LowC)
	step := math.Max(0.1, c.minutesAFourier/100)
	was := c.at(start)
	for m := start; m < 2*1440; m += step {
		now := c.at(m + step)
		got := k.between(Reading{0, was}, Reading{step, now})
		if got >= need {
			return m + step*need/got
		}
		need, was = need-got, now
	}
	return math.Inf(1)
}
