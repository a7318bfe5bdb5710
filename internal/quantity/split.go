package quantity

import "slices"

// Split rounds parts to multiples of step so that they add up to their rounded
// whole: each is first rounded down, then the largest remainders get one step
// more. A part is never further than one step from its exact value.
func Split(parts []Number, step Number) []Number {
	if step.Sign() <= 0 {
		return slices.Clone(parts)
	}
	var whole, shown Number
	out := make([]Number, len(parts))
	order := make([]int, len(parts))
	rest := make([]Number, len(parts))
	for i, p := range parts {
		whole = whole.Add(p)
		steps := p.Quo(step).Floor()
		out[i], rest[i], order[i] = steps.Mul(step), p.Quo(step).Sub(steps), i
		shown = shown.Add(out[i])
	}
	slices.SortStableFunc(order, func(a, b int) int { return rest[b].Cmp(rest[a]) })
	missing, _ := Round(whole, step).Sub(shown).Quo(step).Int64()
	for _, i := range order {
		if missing <= 0 {
			break
		}
		out[i] = out[i].Add(step)
		missing--
	}
	return out
}
