package quantity

import (
	"strconv"
	"strings"
)

// A form is one way to write a mass or a volume: how it is rounded, and its words.
// All figures are in base units, grams or millilitres.
type form struct {
	text  func(base Number) string // rounds and writes
	round func(base Number) Number // the value that text writes
	step  Number                   // what that value is a multiple of
	least *Unit                    // the unit for amounts that would round to zero
}

// mostSpoons is the largest volume in ml that is shown in spoons: five tablespoons.
// Above it a jug is used.
var mostSpoons = Int(75)

// formOf returns the form in which n of u is shown. ok is false for counts and
// lengths, and for a few spoons, which are shown as spoons in every system.
func formOf(n Number, u *Unit, p Prefs) (f form, ok bool) {
	base := n.Mul(u.Factor)
	switch u.Dim {
	case Mass:
		return massForm(base, p.system(u), p), true
	case Volume:
		return volumeForm(n, u, p.system(u), p)
	}
	return form{}, false
}

// massForm returns the form of a mass: pounds and ounces, or grams where those would be
// rounded too far.
func massForm(base Number, system System, p Prefs) form {
	if system == US || system == Imperial {
		f := onLadder(base, pounds, 2, p)
		if p.within(f.round(base), base, p.bound()) {
			return f
		}
		return gramForm(base, p, p.bound())
	}
	return gramForm(base, p, p.bound())
}

// volumeForm returns the form of a volume: the shortest ladder of its system that is
// exact enough, else millilitres.
func volumeForm(n Number, u *Unit, system System, p Prefs) (f form, ok bool) {
	base := n.Mul(u.Factor)
	said, whole := usSpoken, usVolume
	switch {
	case system == Imperial && base.Cmp(byWord["imperial fluid ounce"].Factor) >= 0:
		said, whole = impVolume, impVolume
	case system == US, system == Imperial: // less than a fluid ounce is measured in spoons
	case u.System == Metric || u.Factor.Cmp(Int(20)) > 0 || base.Cmp(mostSpoons) > 0:
		return jugForm(base, p, p.bound()), true
	default: // spoons of a metric kitchen
		if spoons, exact := n, eighths(n) || n.Mul(Int(3)).IsInt(); exact || p.within(p.round(spoons, Frac(1, 4)), n, p.bound()) {
			return form{}, false
		}
		return jugForm(base, p, p.bound()), true
	}
	short := 2
	if p.Ladder {
		said, short = whole, len(whole)
	}
	for most := short; most <= len(said); most++ {
		if f = onLadder(base, said, most, p); p.within(f.round(base), base, p.bound()) {
			return f, true
		}
	}
	return jugForm(base, p, p.bound()), true
}

// onLadder returns the form of pounds and cups in at most so many of the units.
func onLadder(base Number, names []string, most int, p Prefs) form {
	least := byWord[names[len(names)-1]]
	rungs := func(base Number) []rung {
		if most < len(names) || !p.Ladder {
			return spoken(base, names, most, p)
		}
		return climb(base, most, names, p)
	}
	step := least.Factor.Quo(Int(4))
	if rs := rungs(base); len(rs) > 0 {
		step = rs[len(rs)-1].unit.Factor.Quo(Int(4))
	}
	return form{
		text:  func(base Number) string { return writeRungs(rungs(base)) },
		round: func(base Number) Number { return worth(rungs(base)) },
		step:  step,
		least: least,
	}
}

// gramForm returns the form of a mass in grams and kilograms. From a kilogram up it has
// three figures, as shop scales and cooks have; below, the steps of the scale, or finer
// ones where those would be off by more than share.
func gramForm(base Number, p Prefs, share Number) form {
	return rounded(grams, p.fine(base, massStep(base, p.scale()), share), byWord["g"], p)
}

// massStep returns the step of a mass in grams: one in its third figure from a kilogram
// up, else the scale's.
func massStep(base, scale Number) Number {
	step := scale
	for top, third := Int(1000), Int(10); base.Cmp(top) >= 0; top, third = top.Mul(Int(10)), third.Mul(Int(10)) {
		step = third
	}
	return step
}

// jugForm returns the form of a volume in millilitres and litres: the marks of the jug,
// or finer ones where those would be off by more than share.
func jugForm(base Number, p Prefs, share Number) form {
	return rounded(millilitres, p.fine(base, jug(base), share), byWord["ml"], p)
}

// fine returns step, or the first finer step of a scale that shows base within share.
func (p Prefs) fine(base, step, share Number) Number {
	for _, finer := range [...]Number{Int(1), Frac(1, 10), Frac(1, 100), Frac(1, 1000)} {
		if base.Sign() <= 0 || p.within(p.round(base, step), base, share) {
			break
		}
		if finer.Cmp(step) < 0 {
			step = finer
		}
	}
	return step
}

// rounded returns the form of metric amounts, which are multiples of step.
func rounded(write func(Number) string, step Number, least *Unit, p Prefs) form {
	return form{
		text:  func(base Number) string { return write(p.round(base, step)) },
		round: func(base Number) Number { return p.round(base, step) },
		step:  step,
		least: least,
	}
}

// grams returns a mass in g or kg, without rounding a multiple of a step.
func grams(g Number) string {
	if g.Cmp(Int(1000)) >= 0 {
		return decimals(g.Quo(Int(1000)), 7) + " kg"
	}
	return decimals(g, 4) + " g"
}

// jug returns the marks, in ml, on a measuring jug that holds so much: common
// practice, no source.
func jug(ml Number) Number {
	switch {
	case ml.Cmp(Int(10_000)) >= 0:
		return Int(50)
	case ml.Cmp(Int(100)) > 0:
		return Int(5)
	case ml.Cmp(Int(10)) < 0:
		return Frac(1, 2)
	}
	return Int(1)
}

// millilitres returns a volume in ml or L, without rounding a multiple of a step.
func millilitres(ml Number) string {
	if ml.Cmp(Int(1000)) >= 0 {
		return decimals(ml.Quo(Int(1000)), 7) + " L"
	}
	return decimals(ml, 4) + " ml"
}

// Round returns the multiple of step nearest to n, halves up. Step is above 0.
func Round(n, step Number) Number {
	return n.Quo(step).Add(Frac(1, 2)).Floor().Mul(step)
}

// ShowNumber returns n with at most three decimals, fewer the larger it is: "68",
// "2.5", "0.333".
func ShowNumber(n Number) string {
	switch a := n; {
	case a.Cmp(Int(100)) >= 0:
		return decimals(n, 0)
	case a.Cmp(Int(10)) >= 0:
		return decimals(n, 1)
	case a.Cmp(Int(1)) >= 0:
		return decimals(n, 2)
	}
	return decimals(n, 3)
}

// decimals returns n with at most so many decimals and no zeros at the end.
func decimals(n Number, most int) string {
	s := n.Decimal(most)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

var (
	quarterSigns = []string{"", "¼", "½", "¾"}
	eighthSigns  = []string{"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"}
)

// eighths says whether n is a whole number of eighths.
func eighths(n Number) bool { return n.Mul(Int(8)).IsInt() }

// quarters returns a count rounded to quarters, "2", "1 ½", "¾". Thirds and eighths stay.
func quarters(n Number) string {
	whole := n.Floor()
	part := n.Sub(whole)
	w, _ := whole.Int64()
	switch {
	case part.Cmp(Frac(1, 3)) == 0:
		return joinFraction(w, "⅓")
	case part.Cmp(Frac(2, 3)) == 0:
		return joinFraction(w, "⅔")
	}
	if eighths(part) {
		e, _ := part.Mul(Int(8)).Int64()
		return joinFraction(w, eighthSigns[e])
	}
	q, _ := Round(part.Mul(Int(4)), Int(1)).Int64()
	if q == 4 {
		w, q = w+1, 0
	}
	if w == 0 && q == 0 {
		if n.Sign() > 0 {
			return ShowNumber(n)
		}
		return "0"
	}
	return joinFraction(w, quarterSigns[q])
}

// joinFraction returns a whole number and a fraction sign, "1 ½".
func joinFraction(whole int64, sign string) string {
	switch {
	case sign == "":
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return sign
	}
	return strconv.FormatInt(whole, 10) + " " + sign
}
