package quantity

import "strings"

// Units that an amount may be split into, the largest first.
var (
	usVolume  = []string{"gallon", "quart", "pint", "cup", "tablespoon", "teaspoon"}
	usSpoken  = []string{"gallon", "quart", "cup", "tablespoon", "teaspoon"} // pints are used in large quantities alone
	impVolume = []string{"imperial gallon", "imperial pint", "imperial fluid ounce"}
	pounds    = []string{"pound", "ounce"}
)

// A rung is one figure with its unit; several make up an amount.
type rung struct {
	n    Number
	unit *Unit
}

// writeRungs returns the rungs as text, "1 lb 4 oz".
func writeRungs(rs []rung) string {
	out := make([]string, len(rs))
	for i, r := range rs {
		out[i] = quarters(r.n) + " " + word(r.unit, r.n)
	}
	return strings.Join(out, " ")
}

// worth returns the sum of rungs in base units.
func worth(rs []rung) Number {
	var sum Number
	for _, r := range rs {
		sum = sum.Add(r.n.Mul(r.unit.Factor))
	}
	return sum
}

// spoken splits an amount the short way: into one figure where a quarter or a third
// of a unit allows it (1 ½ cups, not 1 cup 8 tbsp), else into the largest units, at
// most so many, because nobody measures a gallon to the teaspoon.
func spoken(base Number, names []string, most int, p Prefs) []rung {
	if one, ok := oneRung(base, names); ok {
		return one
	}
	return climb(base, most, names, p)
}

// oneRung writes an amount as one figure. ok is false where it does not come out even.
func oneRung(base Number, names []string) (rs []rung, ok bool) {
	for i, name := range names {
		u := byWord[name]
		n := base.Quo(u.Factor)
		if i > 0 && base.Cmp(byWord[names[i-1]].Factor) >= 0 {
			break // nobody counts 54 tablespoons
		}
		least := Frac(1, 4)
		if strings.HasSuffix(name, "gallon") || name == "quart" {
			least = Int(1) // cooks say 2 cups and not half a quart
		}
		if n.Cmp(least) >= 0 && (n.Mul(Int(4)).IsInt() || thirds(n, u)) || i == len(names)-1 && eighths(n) && n.Sign() > 0 {
			return []rung{{n, u}}, true
		}
	}
	return nil, false
}

// thirds says whether n of u is a whole number of thirds of a cup, for which there
// are measures.
func thirds(n Number, u *Unit) bool { return u.Name == "cup" && n.Mul(Int(3)).IsInt() }

// climb splits an amount into at most so many rungs, whole units from the largest down
// and the last rounded to a quarter. What a rounded rung makes full is carried to the
// one above. It returns nil for an amount that rounds to zero.
func climb(base Number, most int, names []string, p Prefs) []rung {
	quarter := byWord[names[len(names)-1]].Factor.Quo(Int(4))
	left := base
	if last := base.Quo(quarter.Mul(Int(4))); !eighths(last) {
		left = p.round(base, quarter) // rounded once, before it is split: 15.99 oz is 1 lb and not 16 oz
	}
	for {
		rs := split(left, most, names, p)
		if sum := worth(rs); sum.Cmp(left) != 0 {
			left = sum
			continue
		}
		return rs
	}
}

// split splits an amount into at most so many rungs, of which it rounds the last.
func split(left Number, most int, names []string, p Prefs) []rung {
	var out []rung
	for i, name := range names {
		u := byWord[name]
		n := left.Quo(u.Factor)
		last := i == len(names)-1 || len(out) == most-1
		switch {
		case u.Name == "cup" && (n.Mul(Int(4)).IsInt() || thirds(n, u)):
		case last && eighths(n) && i == len(names)-1:
		case last && n.Cmp(Frac(1, 4)) >= 0:
			n = p.round(n, Frac(1, 4))
		case last && i < len(names)-1:
			n = Number{} // less than a quarter of it: the next smaller unit has it
		case last:
			n = p.round(n, Frac(1, 4))
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
