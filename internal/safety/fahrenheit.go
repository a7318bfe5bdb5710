package safety

import (
	"math"
	"strconv"

	"hobside/internal/quantity"
)

// figuresF are the figures in °F that the US code writes beside its own in °C. The code
// rounds each of them, so that 165 °F is 73.9 °C and is listed beside 74 °C. Read in
// testdata/limits.csv and testdata/roast_table.csv; the two of USDA's advice to homes are
// from memory.
var figuresF = map[float64]float64{
	5: 41, 7: 45, 21: 70, 54: 130, 57: 135, 63: 145, 66: 150, 68: 155, 70: 158, 74: 165, 121: 250, 163: 325, 177: 350,
	54.4: 130, 55: 131, 56.1: 133, 57.2: 135, 57.8: 136, 58.9: 138, 60: 140, 61.1: 142, 62.2: 144, 62.8: 145, 63.9: 147, 65: 149, 66.1: 151, 67.2: 153, 68.3: 155, 69.4: 157,
	26.7: 80, 4.4: 40, 48: 120, 12.7: 55, 71.1: 160,
}

// InF returns in °F a figure of the limit that is given in °C: what the code itself
// writes, and where it writes none the figure in °C, converted.
func (l Limit) InF(c float64) float64 {
	if f, ok := figuresF[c]; ok && l.Rules == US {
		return f
	}
	return quantity.Fahrenheit(c)
}

// InBoth returns the limit as [Limit.String] does, with the figures in °F that the US code
// writes beside its own: "at least 74 °C (165 °F), at once".
func (l Limit) InBoth() string {
	return l.write(func(c float64) string {
		if l.Rules != US {
			return Celsius(c)
		}
		return inBoth(c, l.InF(c))
	})
}

// inBoth writes a temperature in °C and, in whole degrees, in °F.
func inBoth(c, f float64) string {
	return Celsius(c) + " (" + strconv.FormatFloat(math.Round(f), 'f', -1, 64) + " °F)"
}

// compared returns the limit as readings are compared with it: each temperature is the
// easier one of the code's two figures, because a probe that shows the code's 165 °F has
// reached the limit that is also written as 74 °C.
func (l Limit) compared() Limit {
	if l.Rules != US {
		return l
	}
	warmer := func(c float64) float64 { return math.Max(c, FromF(l.InF(c))) }
	colder := func(c float64) float64 { return math.Min(c, FromF(l.InF(c))) }
	if l.Bound == AtLeast {
		l.TempC = colder(l.TempC)
	} else {
		l.TempC = warmer(l.TempC)
	}
	if l.FromC > l.ToC {
		l.FromC, l.ToC = colder(l.FromC), warmer(l.ToC)
	} else {
		l.FromC, l.ToC = warmer(l.FromC), colder(l.ToC)
	}
	return l
}
