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
	return splitTo(parts, step, Round(whole, step))
}

// splitTo returns parts rounded to multiples of step that add up to target, by the
// largest remainder. What the steps cannot make up (the whole is rounded to 5 ml,
// the parts to half a ml) is added to the largest part, where it matters least.
func splitTo(parts []Number, step, target Number) []Number {
	var shown Number
	out := make([]Number, len(parts))
	order := make([]int, len(parts))
	rest := make([]Number, len(parts))
	largest := 0
	for i, p := range parts {
		steps := p.Quo(step).Floor()
		out[i], rest[i], order[i] = steps.Mul(step), p.Quo(step).Sub(steps), i
		shown = shown.Add(out[i])
		if p.Cmp(parts[largest]) > 0 {
			largest = i
		}
	}
	sort.SliceStable(order, func(i, j int) bool { return rest[order[i]].Cmp(rest[order[j]]) > 0 })
	for _, i := range order {
		if target.Sub(shown).Cmp(step) < 0 {
			break
		}
		out[i], shown = out[i].Add(step), shown.Add(step)
	}
	if len(out) > 0 {
		out[largest] = out[largest].Add(target.Sub(shown))
	}
	return out
}

// ShowParts returns the parts of one item as text, so that the shown parts add up
// to what [Show] returns for the whole. ok is false when they have different units,
// or one is a range or "to taste"; the caller then shows each by itself.
func ShowParts(parts []Amount, p Prefs) (texts []string, ok bool) {
	if len(parts) < 2 || parts[0].Unit == nil {
		return nil, false
	}
	unit := parts[0].Unit
	var whole Number
	base := make([]Number, len(parts))
	for i, a := range parts {
		if a.Unit != unit || a.ToTaste || !a.To.IsZero() || a.Qty.Sign() < 0 {
			return nil, false
		}
		base[i] = a.Qty.Mul(unit.Factor)
		whole = whole.Add(base[i])
	}
	f, ok := formOf(whole.Quo(unit.Factor), unit, p)
	if !ok {
		return nil, false
	}
	step := f.step
	for _, a := range parts { // a small part may have finer steps than the whole
		if own, ok := formOf(a.Qty, unit, p); ok && own.least == f.least && own.step.Cmp(step) < 0 && !a.Qty.IsZero() {
			step = own.step
		}
	}
	target := f.round(whole)
	if target.IsZero() && whole.Sign() > 0 {
		return specks(base, whole, f), true
	}
	shares := splitTo(base, step, target)
	for range 3 {
		// Two parts of 2.5 g on a scale of 5 g would be 5 g and nothing. Figures
		// that the scale cannot weigh are better than a part that is missing.
		if !f.fine || !nothingOf(base, shares) {
			break
		}
		step = step.Quo(Int(10))
		shares = splitTo(base, step, target)
	}
	texts = make([]string, len(parts))
	for i, n := range shares {
		if n.Sign() <= 0 && base[i].Sign() > 0 {
			texts[i] = speck(base[i], f.least) // too small for a step, but not left out
			continue
		}
		texts[i] = f.write(n)
	}
	return texts, true
}

// nothingOf reports whether a part above 0 has a share of 0.
func nothingOf(parts, shares []Number) bool {
	for i, p := range parts {
		if p.Sign() > 0 && shares[i].Sign() <= 0 {
			return true
		}
	}
	return false
}

// specks returns the parts of a whole that would itself round to zero, in
// thousandths of the form's least unit.
func specks(base []Number, whole Number, f form) []string {
	thousandth := f.least.Factor.Quo(Int(1000))
	texts := make([]string, len(base))
	for i, n := range splitTo(base, thousandth, Round(whole, thousandth)) {
		texts[i] = speck(n, f.least)
	}
	return texts
}
