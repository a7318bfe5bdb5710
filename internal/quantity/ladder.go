package quantity

import "strings"

// cups writes a volume down the US ladder to the quarter teaspoon, with the
// two largest rungs only: nobody measures a gallon to the teaspoon.
func cups(ml Number) string { return ladder(ml, "gallon", "quart", "cup", "tablespoon", "teaspoon") }

// pounds writes a mass in pounds and ounces, to the quarter ounce.
func pounds(g Number) string { return ladder(g, "pound", "ounce") }

// Ladder writes a US measure down its whole ladder, as large-quantity practice
// does: gallons, quarts, pints, cups, tablespoons, teaspoons to the quarter;
// pounds and ounces to the quarter ounce. Other amounts are written by Show.
func Ladder(a Amount) string {
	if a.Unit == nil || a.ToTaste {
		return Show(a, Prefs{System: US})
	}
	base := a.Qty.Mul(a.Unit.Factor)
	switch a.Unit.Dim {
	case Mass:
		return rungs(base, 9, "pound", "ounce")
	case Volume:
		return rungs(base, 9, "gallon", "quart", "pint", "cup", "tablespoon", "teaspoon")
	}
	return Show(a, Prefs{System: US})
}

func ladder(base Number, names ...string) string {
	// One figure where one will do: 1 ½ cups, not 1 cup 8 tbsp.
	for _, name := range names {
		u := byWord[name]
		n := base.Quo(u.Factor)
		if n.Cmp(Frac(1, 4)) >= 0 && n.Mul(Int(4)).IsInt() {
			return quarters(n) + " " + word(u, n)
		}
	}
	return rungs(base, 2, names...)
}

// rungs takes whole units from the largest down, at most so many rungs, and
// rounds the last to a quarter.
func rungs(base Number, most int, names ...string) string {
	smallest := byWord[names[len(names)-1]]
	quarter := smallest.Factor.Quo(Int(4))
	left := Round(base, quarter) // once, before it is cut up: no 16 oz left over
	if left.IsZero() && base.Sign() > 0 {
		return ShowNumber(base.Quo(smallest.Factor)) + " " + word(smallest, Int(1))
	}
	var out []string
	for i, name := range names {
		u := byWord[name]
		n := left.Quo(u.Factor)
		last := i == len(names)-1 || len(out) == most-1
		if !last {
			n = n.Floor()
		} else {
			n = Round(n, Frac(1, 4))
		}
		if n.IsZero() || last && len(out) == most-1 && n.Cmp(Frac(1, 4)) < 0 {
			continue
		}
		out = append(out, quarters(n)+" "+word(u, n))
		left = left.Sub(n.Mul(u.Factor))
		if left.Sign() <= 0 || len(out) == most {
			break
		}
	}
	return strings.Join(out, " ")
}
