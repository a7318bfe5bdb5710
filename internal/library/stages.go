package library

import (
	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/safety"
)

// longestWarm is how many seconds food that is not cold yet may be kept by a card before
// the check says so: what going straight on allows.
const longestWarm = 30 * 60

// stages returns warnings on cooling in stages: food that a step leaves warm goes straight
// on, whatever the card says or does not say of keeping it.
func stages(c *card.Card) []document.Problem {
	var out []document.Problem
	for i := range c.Steps {
		s := &c.Steps[i]
		if !s.LeftWarm() {
			continue
		}
		at := "cooled to " + safety.Celsius(s.Cool.ToC)
		goesOn := goesOnCooling(c, i)
		switch longest := longestKeep(s.Keep); {
		case len(s.Keep) == 0 && goesOn:
			out = append(out, stepWarning(c, s, at+" only: the plan goes straight on to the next stage", `add "keep: straight on" to the step to say the same`))
		case len(s.Keep) == 0 && i+1 < len(c.Steps):
			out = append(out, stepWarning(c, s, at+" only: the plan goes straight on to the next step", `add "keep: straight on" to say the same, or how long it may wait: "keep: 1 h room"`))
		case goesOn && longest > longestWarm:
			out = append(out, stepWarning(c, s, at+" only, and kept for "+safety.Span(float64(longest)/60)+": the plan goes straight on to the next stage all the same",
				`write "keep: straight on", or cool it to `+safety.Celsius(5)+" in this step"))
		}
	}
	return out
}

// goesOnCooling reports whether a later step is the next stage of the cooling of step i.
func goesOnCooling(c *card.Card, i int) bool {
	for j := i + 1; j < len(c.Steps); j++ {
		if stage, ok := c.StageBefore(j); ok && stage == i {
			return true
		}
	}
	return false
}

// longestKeep returns the longest of keeping times, in seconds.
func longestKeep(keeps []card.Keep) int {
	longest := 0
	for _, k := range keeps {
		longest = max(longest, k.Seconds)
	}
	return longest
}
