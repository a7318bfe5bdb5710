package quantity

import (
	"strconv"
	"strings"
)

// Prefs is how a cook reads amounts.
type Prefs struct {
	System System // Metric or US
	Scale  Number // what the scale can weigh, in grams: 0.1, 1 or 5; 0 means 1
}

func (p Prefs) scale() Number {
	if p.Scale.Sign() <= 0 {
		return Int(1)
	}
	return p.Scale
}

// Show writes an amount the way a person would say it: "1.25 kg", "340 g",
// "¾ cup", "1 lb 4 oz", "2–3 cloves", "about 1.6 kg", "to taste". It is the
// only place where an amount is rounded.
func Show(a Amount, p Prefs) string {
	if a.ToTaste {
		return "to taste"
	}
	if a.Unit == nil {
		return ""
	}
	s := show(a.Qty, a.Unit, p)
	if !a.To.IsZero() {
		to := show(a.To, a.Unit, p)
		if from, unit, ok := cutUnit(s); ok {
			if _, unitTo, ok := cutUnit(to); ok && unit == unitTo {
				s = from
			}
		}
		if s != to {
			s += "–" + to
		}
	}
	if a.About {
		return "about " + s
	}
	return s
}

func cutUnit(s string) (figure, unit string, ok bool) {
	i := strings.LastIndexByte(s, ' ')
	if i < 0 {
		return s, "", true
	}
	return s[:i], s[i+1:], true
}

func show(n Number, u *Unit, p Prefs) string {
	switch {
	case u.Dim == Mass && p.System == US:
		return pounds(n.Mul(u.Factor))
	case u.Dim == Mass:
		return grams(n.Mul(u.Factor), p.scale())
	case u.Dim == Volume && p.System == US:
		return cups(n.Mul(u.Factor))
	case u.Dim == Volume && (u.System == Metric || p.System == Metric && u.Factor.Cmp(Int(50)) > 0):
		return millilitres(n.Mul(u.Factor))
	case u.Dim == Volume: // spoons are spoons everywhere
		return quarters(n) + " " + word(u, n)
	case u == Each:
		return quarters(n)
	case u.Dim == Length:
		return ShowNumber(n) + " " + u.Symbol
	}
	return quarters(n) + " " + word(u, n)
}

func word(u *Unit, n Number) string {
	if u.Symbol != u.Name {
		return u.Symbol
	}
	if n.Cmp(Int(1)) <= 0 {
		return u.Name
	}
	return u.Plural
}

// grams rounds to the scale, never to nothing: what is there at all is shown
// with one figure.
func grams(g, scale Number) string {
	r := Round(g, scale)
	if r.IsZero() && g.Sign() > 0 {
		return ShowNumber(g) + " g"
	}
	if r.Cmp(Int(1000)) >= 0 {
		return decimals(r.Quo(Int(1000)), 3) + " kg"
	}
	return decimals(r, 1) + " g"
}

// millilitres rounds to what a jug of that size can show.
func millilitres(ml Number) string {
	step := Int(1)
	switch {
	case ml.Cmp(Int(10)) < 0:
		step = Frac(1, 2)
	case ml.Cmp(Int(100)) > 0:
		step = Int(5)
	}
	if ml.Cmp(Int(10_000)) >= 0 {
		step = Int(50)
	}
	r := Round(ml, step)
	if r.IsZero() && ml.Sign() > 0 {
		return ShowNumber(ml) + " ml"
	}
	if r.Cmp(Int(1000)) >= 0 {
		return decimals(r.Quo(Int(1000)), 3) + " L"
	}
	return decimals(r, 1) + " ml"
}

// Round returns n to the nearest multiple of step, halves up.
func Round(n, step Number) Number {
	return n.Quo(step).Add(Frac(1, 2)).Floor().Mul(step)
}

// ShowNumber writes a number with three figures at most: 68, 2.5, 0.333.
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

// decimals writes n with at most so many decimals and no noughts at the end.
func decimals(n Number, most int) string {
	s := n.Rat().FloatString(most)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

var quarterSigns = []string{"", "¼", "½", "¾"}

// quarters writes a count in quarters: 2, 1 ½, ¾; thirds stay thirds.
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

func joinFraction(whole int64, sign string) string {
	switch {
	case sign == "":
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return sign
	}
	return strconv.FormatInt(whole, 10) + " " + sign
}
