package quantity

import (
	"slices"
	"sort"
)

// Split returns parts rounded to multiples of step that add up to their rounded
// sum: each is rounded down, then those with the largest remainders get one step
// more. No part differs by a whole step from its exact value. A step that is not
// above 0 rounds nothing.
func Split(parts []Number, step Number) []Number {
	if step.Sign() <= 0 {
		return slices.Clone(parts)
	}
	var whole Number
	for _, p := range parts {
		whole = whole.Add(p)
	}
	var shown Number
	out := make([]Number, len(parts))
	order := make([]int, len(parts))
	rest := make([]Number, len(parts))
	for i, p := range parts {
		steps := p.Quo(step).Floor()
		out[i], rest[i], order[i] = steps.Mul(step), p.Quo(step).Sub(steps), i
		shown = shown.Add(out[i])
	}
	sort.SliceStable(order, func(i, j int) bool { return rest[order[i]].Cmp(rest[order[j]]) > 0 })
	target := Round(whole, step)
	for _, i := range order {
		if target.Sub(shown).Cmp(step) < 0 {
			break
		}
		out[i], shown = out[i].Add(step), shown.Add(step)
	}
	return out
}
