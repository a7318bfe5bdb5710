package quantity

import "strings"

// Prefs is how a cook reads amounts.
type Prefs struct {
	System  System // Metric, US or Imperial
	Scale   Number // what the scale can weigh, in grams: 0.1, 1 or 5; 0 means 1
	AsTyped bool   // each amount in the system it was typed in, whatever System says
	Ladder  bool   // US measures down the whole ladder, not the two largest rungs
}

func (p Prefs) scale() Number {
	if p.Scale.Sign() <= 0 {
		return Int(1)
	}
	return p.Scale
}

// system is the system an amount of a unit is shown in.
func (p Prefs) system(u *Unit) System {
	if p.AsTyped {
		return u.System
	}
	return p.System
}

// Show writes an amount the way a person would say it: "1.25 kg", "340 g",
// "¾ cup", "1 lb 4 oz", "2–3 cloves", "about 1.6 kg", "to taste". It is the
// only place where an amount is rounded, with [ShowParts].
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
	if f, ok := formOf(n, u, p); ok {
		base := n.Mul(u.Factor)
		if f.round(base).IsZero() && base.Sign() > 0 { // never to nothing: what is there at all is shown with a figure
			return speck(base, f.least)
		}
		return f.text(base)
	}
	if u.Dim == Length {
		return ShowNumber(n) + " " + u.Symbol
	}
	if u == Each {
		return quarters(n)
	}
	return quarters(n) + " " + word(u, n)
}

// speck writes next to nothing with a figure.
func speck(base Number, u *Unit) string { return ShowNumber(base.Quo(u.Factor)) + " " + u.Symbol }

func word(u *Unit, n Number) string {
	if u.Symbol != u.Name {
		return u.Symbol
	}
	if n.Cmp(Int(1)) <= 0 {
		return u.Name
	}
	return u.Plural
}
