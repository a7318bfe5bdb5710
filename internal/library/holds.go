package library

import (
	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/safety"
)

// heldWrong returns a warning for every hold of food at a temperature that the rules do not allow
// for it: hot below their limit, or chilled above it. Advice that is no law is not told.
func heldWrong(c *card.Card, rules []safety.Rules) []document.Problem {
	var out []document.Problem
	for i := range c.Steps {
		for _, k := range c.Steps[i].Keep {
			for _, r := range rules {
				if l, broken := heldAgainst(&k, r); broken {
					out = append(out, stepWarning(c, &c.Steps[i], "held "+k.Place+" at "+safety.Celsius(k.TempC)+": "+l.InBoth()+": "+l.Source.String(),
						"hold it at "+safety.Celsius(l.TempC)+", or write the figures of your own food safety plan"))
				}
			}
		}
	}
	return out
}

// heldAgainst returns the limit of a rule set that a hold does not keep; broken is false where it
// keeps them all.
func heldAgainst(k *card.Keep, rules safety.Rules) (l safety.Limit, broken bool) {
	kind := map[string]safety.Kind{"hot": safety.HoldHot, "chilled": safety.HoldCold}[k.Place]
	for _, l := range safety.For(rules, kind, safety.Cooked) {
		if !k.HasTemp || !l.HasTemp || l.Advice {
			continue
		}
		if l.Bound == safety.AtLeast && k.TempC < l.TempC || l.Bound == safety.AtMost && k.TempC > l.TempC {
			return l, true
		}
	}
	return l, false
}
