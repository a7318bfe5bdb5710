package quantity

import "sort"

// A share is one part of an amount, as it is shown.
type share struct {
	base  Number // exact, in grams or millilitres
	value Number // as shown
	form  form
}

// ShowParts returns the parts of one item as text. Each has the form that [Show] gives
// it by itself, and the shown parts add up to what Show returns for the whole where no
// part has to be more than a step of its form off for that. ok is false when the parts have
// different units, or one is a range or "to taste"; the caller then shows each by
// itself.
func ShowParts(parts []Amount, p Prefs) (texts []string, ok bool) {
	if len(parts) < 2 || parts[0].Unit == nil {
		return nil, false
	}
	unit := parts[0].Unit
	var whole Number
	shares := make([]share, len(parts))
	for i, a := range parts {
		if a.Unit != unit || a.ToTaste || !a.To.IsZero() || a.Qty.Sign() < 0 {
			return nil, false
		}
		s := &shares[i]
		s.base = a.Qty.Mul(unit.Factor)
		if s.form, ok = formOf(a.Qty, unit, p); !ok && unit.Dim == Volume {
			s.form, ok = jugForm(s.base, p, p.bound()), true // a few spoons of what is poured in all
		}
		if !ok {
			return nil, false
		}
		s.value = s.form.round(s.base)
		whole = whole.Add(s.base)
	}
	f, ok := formOf(whole.Quo(unit.Factor), unit, p)
	if !ok {
		return nil, false
	}
	addUp(shares, f, whole)
	texts = make([]string, len(parts))
	for i, s := range shares {
		if s.value.Sign() <= 0 && s.base.Sign() > 0 {
			texts[i] = speck(s.base, s.form.least) // too small for a step, but not left out
			continue
		}
		texts[i] = s.form.text(s.value)
	}
	return texts, true
}

// addUp moves shares by steps of their forms until their sum is shown as the whole is,
// the coarsest steps first and the share that a step leaves nearest to its exact value.
// No share ends more than a step off. Where they can't add up so, all stay as they were: with
// pounds and grams beside each other, nobody can add them anyway.
func addUp(shares []share, f form, whole Number) {
	if f.least.Dim == Volume && f.least.System != Metric {
		return // cups and spoons have no step in common: each part keeps its measures
	}
	target := f.round(whole)
	var sum Number
	order := make([]int, len(shares))
	values := make([]Number, len(shares))
	for i, s := range shares {
		if s.form.least != f.least {
			return
		}
		sum, order[i], values[i] = sum.Add(s.value), i, s.value
	}
	sort.SliceStable(order, func(i, j int) bool { return shares[order[i]].form.step.Cmp(shares[order[j]].form.step) > 0 })
	for sum.Cmp(target) != 0 {
		diff := target.Sub(sum)
		best := nearestMove(shares, order, values, diff, func(step Number) bool { return signed(diff, Int(1)).Cmp(step) >= 0 })
		if best < 0 && f.round(sum).Cmp(target) == 0 {
			break // finer than the whole is shown
		}
		if best < 0 { // a step that is more than is missing, but comes to the same whole
			best = nearestMove(shares, order, values, diff, func(step Number) bool { return f.round(sum.Add(signed(step, diff))).Cmp(target) == 0 })
		}
		if best < 0 {
			return
		}
		step := signed(shares[best].form.step, diff)
		values[best], sum = values[best].Add(step), sum.Add(step)
	}
	for i := range shares {
		shares[i].value = values[i]
	}
}

// nearestMove returns the share that one step of its form in the direction of diff leaves
// nearest to its exact value, among those of the coarsest step that may move and can; −1
// when none does. order holds the shares with the coarsest steps first.
func nearestMove(shares []share, order []int, values []Number, diff Number, may func(step Number) bool) int {
	best := -1
	var nearest Number
	for _, i := range order {
		if best >= 0 && shares[i].form.step.Cmp(shares[best].form.step) < 0 {
			break
		}
		if off, ok := shares[i].moved(values[i], diff); ok && may(shares[i].form.step) && (best < 0 || off.Cmp(nearest) < 0) {
			best, nearest = i, off
		}
	}
	return best
}

// moved returns how far a share that shows value would be from its exact value after one
// step in the direction of diff. ok is false where the share would be more than a step off
// or nothing, and where its form can't write it.
func (s share) moved(value, diff Number) (off Number, ok bool) {
	next := value.Add(signed(s.form.step, diff))
	off = signed(next.Sub(s.base), Int(1))
	return off, off.Cmp(s.form.step) <= 0 && next.Sign() > 0 && s.form.round(next).Cmp(next) == 0
}

// signed returns |n| with the sign of like.
func signed(n, like Number) Number {
	if n.Sign()*like.Sign() < 0 {
		return n.Neg()
	}
	return n
}
