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
	write func(base Number) string // writes a multiple of step without rounding it
	step  Number                   // parts are rounded to multiples of it
	least *Unit                    // the unit for amounts that would round to zero
	fine  bool                     // decimal: parts may be finer than step
}

// mostSpoons is the largest volume in ml that is shown in spoons: five tablespoons.
// Above it a jug is used.
var mostSpoons = Int(75)

// formOf returns the form in which n of u is shown. ok is false for counts and
// lengths, and for a few spoons, which are shown as spoons in every system.
func formOf(n Number, u *Unit, p Prefs) (f form, ok bool) {
	system := p.system(u)
	base := n.Mul(u.Factor)
	switch u.Dim {
	case Mass:
		if system == US || system == Imperial {
			return onLadder(pounds, pounds, Frac(1, 4), p.Ladder), true
		}
		scale := p.scale()
		return rounded(grams, scale, byWord["g"]), true
	case Volume:
		switch {
		case system == US:
			return onLadder(usSpoken, usVolume, Frac(1, 4), p.Ladder), true
		case system == Imperial && base.Cmp(byWord["imperial fluid ounce"].Factor) >= 0:
			return onLadder(impVolume, impVolume, Frac(1, 4), p.Ladder), true
		case system == Imperial: // less than a fluid ounce is measured in spoons
			return onLadder(usSpoken, usVolume, Frac(1, 4), p.Ladder), true
		case u.System == Metric || u.Factor.Cmp(Int(20)) > 0 || base.Cmp(mostSpoons) > 0:
			return rounded(millilitres, jug(base), byWord["ml"]), true
		}
	}
	return form{}, false
}

// onLadder returns the form of pounds and cups. said and whole are the units of the
// short and of the long way to write an amount, the largest first; share is the
// part of the smallest that is still measured; down asks for the long way.
func onLadder(said, whole []string, share Number, down bool) form {
	least := byWord[whole[len(whole)-1]]
	rungs := func(base Number) []rung {
		if down {
			return climb(base, len(whole), whole)
		}
		return spoken(base, said)
	}
	return form{
		text:  func(base Number) string { return writeRungs(rungs(base)) },
		round: func(base Number) Number { return worth(rungs(base)) },
		write: func(base Number) string {
			if rs := climb(base, 2, said); !down && worth(rs).Cmp(base) == 0 {
				return writeRungs(rs)
			}
			return writeRungs(climb(base, len(whole), whole))
		},
		step:  least.Factor.Mul(share),
		least: least,
	}
}

// rounded returns the form of metric amounts, which are multiples of step.
func rounded(write func(Number) string, step Number, least *Unit) form {
	return form{
		text:  func(base Number) string { return write(Round(base, step)) },
		round: func(base Number) Number { return Round(base, step) },
		write: write,
		step:  step,
		least: least,
		fine:  true,
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

var quarterSigns = []string{"", "¼", "½", "¾"}

// quarters returns a count rounded to quarters, "2", "1 ½", "¾". Thirds stay thirds.
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
