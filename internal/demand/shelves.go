package demand

import (
	"fmt"
	"strconv"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
)

// shelfProblems returns a warning for each step that has something held, or plates warmed or
// chilled, in what the kitchen does not have, or on more shelves than that has. What several
// things take together, the plan tells.
func shelfProblems(in Input, d *Demand, k *kitchen.Kitchen) []document.Problem {
	var out []document.Problem
	for _, comp := range d.Components {
		c := comp.Card
		for i := range c.Steps {
			s := &c.Steps[i]
			if len(comp.Batches) == 0 || !s.In(max(1, in.Ways[c.ID])) {
				continue
			}
			for n, keep := range append([]card.Keep{s.Plates.Keep}, s.Keep...) {
				what := "what it leaves is held"
				if n == 0 {
					what = "plates are got ready"
				}
				if msg, do := noRoom(comp, s, &keep, what, k); msg != "" {
					out = append(out, document.Problem{File: c.File, Line: s.Pos.Line, Col: s.Pos.Col, Severity: document.Warning, Msg: msg, Do: do})
				}
			}
		}
	}
	return out
}

// noRoom returns what is wrong with where a step has something held, and what to do; "" where
// the kitchen has it.
func noRoom(comp *Component, s *card.Step, keep *card.Keep, what string, k *kitchen.Kitchen) (msg, do string) {
	if keep.In == "" {
		return "", ""
	}
	step := "step " + strconv.Itoa(s.Number) + ": " + what + " in the " + keep.In
	for i := range k.Equipment {
		e := &k.Equipment[i]
		if e.Name != keep.In {
			continue
		}
		most := 0.0
		for _, m := range comp.Batches {
			most = max(most, comp.Card.ShelvesFor(keep.Shelves, m.Factor))
		}
		if there := e.Count * e.Places; there > 0 && most > float64(there) {
			return fmt.Sprintf("%s, on %.2g shelves, and the kitchen has %d", step, most, there), `make less at once with "largest:", or hold it in several places`
		}
		return "", ""
	}
	return step + ", and the kitchen has none", `name it under "## Equipment" where there is one, or write where else it is held`
}
