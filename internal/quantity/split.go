package quantity

import (
	"slices"
	"sort"
)

// Split rounds parts to multiples of step so that they add up to their rounded
// whole: each is first rounded down, then the largest remainders get one step
// more. A part is never further than one step from its exact value.
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

// splitTo rounds parts to multiples of step so that they add up to target, by
// the largest remainder. A target further from the exact whole than the parts
// have steps (a jug's 5 ml over parts of half a ml) goes to the largest part,
// where it matters least.
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

// ShowParts writes the parts of one item so that what is read adds up to what
// [Show] writes for the whole. ok is false when they are not parts of one
// measure (a weight and a spoon, a range); each is then shown by itself.
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
	for _, a := range parts { // a small part needs a finer step than the whole
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
		// 2.5 g and 2.5 g on a scale of 5 g: better figures it can't weigh than
		// two that don't add up.
		if !f.fine || !nothingOf(base, shares) {
			break
		}
		step = step.Quo(Int(10))
		shares = splitTo(base, step, target)
	}
	texts = make([]string, len(parts))
	for i, n := range shares {
		if n.Sign() <= 0 && base[i].Sign() > 0 {
			texts[i] = speck(base[i], f.least) // next to nothing, and not to be left out
			continue
		}
		texts[i] = f.write(n)
	}
	return texts, true
}

// nothingOf says whether a part there is came out as none.
func nothingOf(parts, shares []Number) bool {
	for i, p := range parts {
		if p.Sign() > 0 && shares[i].Sign() <= 0 {
			return true
		}
	}
	return false
}

// specks writes the parts of a whole that is itself next to nothing, in the
// thousandths it is shown in.
func specks(base []Number, whole Number, f form) []string {
	thousandth := f.least.Factor.Quo(Int(1000))
	texts := make([]string, len(base))
	for i, n := range splitTo(base, thousandth, Round(whole, thousandth)) {
		texts[i] = speck(n, f.least)
	}
	return texts
}
