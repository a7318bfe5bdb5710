package engine

import (
	"math"
	"strings"

	"hobside/internal/card"
	"hobside/internal/safety"
)

// sourceBoiling is on whose word water boils where it does.
const sourceBoiling = "US Standard Atmosphere 1976 and IAPWS-IF97 (computed)"

// thinAir finds what a kitchen's altitude changes: below 300 m, about one
// kelvin, it says nothing. A syrup boils lower by as much as water does, so the
// figure on the card means a stronger syrup; a core over the boil can't be
// reached in water at all.
func thinAir(c *card.Card, altitudeM int) []card.Problem {
	if altitudeM < 300 {
		return nil
	}
	boil, err := safety.BoilingC(float64(altitudeM))
	if err != nil {
		return nil
	}
	var out []card.Problem
	add := func(s *card.Step, msg, do string) {
		out = append(out, card.Problem{File: c.File, Line: s.Pos.Line, Col: s.Pos.Col, Severity: card.Warning,
			Msg: "step " + itoa(s.Number) + ": at " + itoa(altitudeM) + " m water boils at " + safety.Celsius(boil) + ", " + msg + ": " + sourceBoiling, Do: do})
	}
	for i := range c.Steps {
		s := &c.Steps[i]
		drop := 100 - boil
		if target, ok := syrupTarget(s); ok && boils(s) {
			add(s, "and syrup lower by "+strings.TrimSuffix(safety.Celsius(drop), "°C")+"K", "look for "+safety.Celsius(math.Round(target-drop))+" instead of "+safety.Celsius(target))
		}
		if s.Until.HasCore && s.Until.CoreC > boil && boils(s) {
			add(s, "and nothing in it gets to "+safety.Celsius(s.Until.CoreC), "cook it under pressure or in dry heat, or write the limit your rules have for lower heat")
		}
	}
	return out
}

// syrupTarget is the temperature of a sign of done over the boil of water,
// where the step does not say that it is a core's.
func syrupTarget(s *card.Step) (c float64, ok bool) {
	if s.Until.HasCore {
		return 0, false
	}
	c, ok = card.Temperature(s.Until.Words)
	return c, ok && c > 101 && c <= 130
}

// boils says whether a step's heat is under a pot of something wet.
func boils(s *card.Step) bool {
	for _, q := range s.Equipment {
		if q.Name == "hob" {
			return true
		}
	}
	return false
}
