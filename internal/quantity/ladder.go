package quantity

import "strings"

// The ladders an amount is written down on, largest rung first.
var (
	usVolume  = []string{"gallon", "quart", "pint", "cup", "tablespoon", "teaspoon"}
	usSpoken  = []string{"gallon", "quart", "cup", "tablespoon", "teaspoon"} // pints are left to large-quantity practice
	impVolume = []string{"imperial gallon", "imperial pint", "imperial fluid ounce"}
	pounds    = []string{"pound", "ounce"}
)

// Ladder writes a US measure down its whole ladder, as large-quantity practice
// does: gallons, quarts, pints, cups, tablespoons, teaspoons to the quarter
// (NAVEDTRA 14163 rounds volumes to the nearest quarter teaspoon); pounds and
// ounces to the quarter ounce. A quarter, third or half of a cup is said as
// such, not in spoons. Other amounts are written by Show.
func Ladder(a Amount) string { return Show(a, Prefs{System: US, Ladder: true}) }

// A rung is one figure of an amount on a ladder.
type rung struct {
	n    Number
	unit *Unit
}

func writeRungs(rs []rung) string {
	out := make([]string, len(rs))
	for i, r := range rs {
		out[i] = quarters(r.n) + " " + word(r.unit, r.n)
	}
	return strings.Join(out, " ")
}

// worth is what rungs come to in base units.
func worth(rs []rung) Number {
	var sum Number
	for _, r := range rs {
		sum = sum.Add(r.n.Mul(r.unit.Factor))
	}
	return sum
}

// spoken writes an amount as a person says it: one figure where one will do (1 ½
// cups, not 1 cup 8 tbsp), else the two largest rungs, because nobody measures
// a gallon to the teaspoon.
func spoken(base Number, names []string) []rung {
	for i, name := range names {
		u := byWord[name]
		n := base.Quo(u.Factor)
		if i > 0 && base.Cmp(byWord[names[i-1]].Factor) >= 0 {
			break // nobody counts 54 tablespoons
		}
		least := Frac(1, 4)
		if strings.HasSuffix(name, "gallon") || name == "quart" {
			least = Int(1) // 2 cups are no half quart, a quart no quarter gallon
		}
		if n.Cmp(least) >= 0 && (n.Mul(Int(4)).IsInt() || thirds(n, u)) {
			return []rung{{n, u}}
		}
	}
	return climb(base, 2, names)
}

// thirds says whether an amount is so many thirds of a cup: there are measures
// for them.
func thirds(n Number, u *Unit) bool { return u.Name == "cup" && n.Mul(Int(3)).IsInt() }

// climb takes whole units from the largest down, at most so many rungs, and
// rounds the last to a quarter. It is nil for an amount that rounds to nothing.
func climb(base Number, most int, names []string) []rung {
	quarter := byWord[names[len(names)-1]].Factor.Quo(Int(4))
	left := Round(base, quarter) // once, before it is cut up: no 16 oz left over
	var out []rung
	for i, name := range names {
		u := byWord[name]
		n := left.Quo(u.Factor)
		last := i == len(names)-1 || len(out) == most-1
		switch {
		case u.Name == "cup" && (n.Mul(Int(4)).IsInt() || thirds(n, u)):
		case last:
			n = Round(n, Frac(1, 4))
		default:
			n = n.Floor()
		}
		if n.IsZero() {
			continue
		}
		out = append(out, rung{n, u})
		left = left.Sub(n.Mul(u.Factor))
		if left.Sign() <= 0 || len(out) == most {
			break
		}
	}
	return out
}
