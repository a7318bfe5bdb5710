package library

import (
	"math"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/safety"
)

// LowestM is the altitude in metres below which there is no warning: water boils
// within one kelvin of 100 °C there.
const LowestM = 300

// thinAir returns warnings on what a kitchen's altitude changes. A syrup boils
// lower by as much as water does, so the card's figure means a stronger syrup;
// a core above the boiling point can't be reached in water.
func thinAir(c *card.Card, altitudeM int) []document.Problem {
	if altitudeM < LowestM {
		return nil
	}
	boil, err := safety.BoilingC(float64(altitudeM))
	if err != nil {
		return nil
	}
	var out []document.Problem
	add := func(s *card.Step, msg, do string) {
		out = append(out, stepWarning(c, s, "at "+strconv.Itoa(altitudeM)+" m water boils at "+safety.Celsius(boil)+", "+msg+": "+safety.BoilingSource, do))
	}
	for i := range c.Steps {
		s := &c.Steps[i]
		drop := 100 - boil
		if target, ok := s.Syrup(); ok {
			add(s, "and syrup lower by "+strings.TrimSuffix(safety.Celsius(drop), "°C")+"K", "look for "+safety.Celsius(math.Round(target-drop))+" instead of "+safety.Celsius(target))
		}
		if s.Until.HasCore && s.Until.CoreC > boil && s.Uses("hob") {
			add(s, "and nothing in it gets to "+safety.Celsius(s.Until.CoreC), "cook it under pressure or in dry heat, or write the limit your rules have for lower heat")
		}
	}
	return out
}
