package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hobside/internal/safety"
)

// coolTarget reads the temperature to cool to, in °C: "5", "5 °C", "41F". A bare figure
// that is likelier one in °F is an error that shows both readings.
func coolTarget(text string) (float64, error) {
	c, unit, ok := safety.ParseDegrees(text)
	switch f := safety.FromF(c); {
	case !ok || !(c > -60 && c < 100):
		return 0, fmt.Errorf("%q is not a temperature to cool to: write it like --to 5", text)
	case !unit && c >= 32:
		return 0, fmt.Errorf("%q: %s, or %s °F, which is %s? write the unit, like --to %sF", text, safety.Celsius(c), strings.TrimSpace(text), safety.Celsius(f), strings.TrimSpace(text))
	}
	return c, nil
}

// probeLog reads "0 85, 30 60.5, 60 122F": pairs of minutes from the start and a
// temperature, in °C where no unit is written.
func probeLog(text string) ([]safety.Reading, error) {
	var log []safety.Reading
	for part := range strings.SplitSeq(text, ",") {
		part = strings.TrimSpace(part)
		if part == "" {
			continue
		}
		first, second, both := strings.Cut(part, " ")
		if !both {
			return nil, fmt.Errorf(`%q is not a minute and a temperature: write it like "0 85, 30 60"`, part)
		}
		minute, err := strconv.ParseFloat(first, 64)
		if err != nil || math.IsInf(minute, 0) || math.IsNaN(minute) {
			return nil, fmt.Errorf("%q is not a number of minutes", first)
		}
		c, _, ok := safety.ParseDegrees(second)
		if !ok {
			return nil, fmt.Errorf("%q is not a temperature", strings.TrimSpace(second))
		}
		if err := safety.Plausible(c); err != nil {
			return nil, err
		}
		log = append(log, safety.Reading{Minute: minute, TempC: c})
	}
	return log, nil
}
