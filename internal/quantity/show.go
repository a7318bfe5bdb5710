package quantity

import (
	"strings"
	"unicode"
)

// Prefs says how a cook wants to read amounts.
type Prefs struct {
	System  System // Metric, US or Imperial
	Scale   Number // the steps of the kitchen scale in grams: 0.1, 1 or 5; 0 means 1
	AsTyped bool   // show each amount in the system it was typed in, not in System
	// Ladder shows US measures in all the units they need, not in the two largest, as
	// cooks for large numbers write them: volumes to a quarter teaspoon (NAVEDTRA 14163
	// rounds to the nearest), weights to a quarter ounce.
	Ladder bool
	// Tight is for what a dish can't take more of than it says: salts of a cure, yeast,
	// gelling and raising agents. Rounding is then at most 1 %.
	Tight bool
	// Up rounds up and never down, as a list of what to buy must.
	Up bool
}

// bound returns the most that a rounding may be off, as a share of the amount. What the
// scale, the jug or a ladder of units would put further off is shown finer than they
// weigh. Common practice, no source.
func (p Prefs) bound() Number {
	if p.Tight {
		return Frac(1, 100)
	}
	return Frac(1, 50)
}

// round returns the multiple of step that n is shown as: the nearest, or with Up the
// next above.
func (p Prefs) round(n, step Number) Number {
	if p.Up {
		return n.Quo(step).Ceil().Mul(step)
	}
	return Round(n, step)
}

// within says whether a shown amount is at most so share of the exact one off, and with
// Up not below it.
func (p Prefs) within(shown, exact, share Number) bool {
	off := shown.Sub(exact)
	if off.Sign() < 0 {
		if p.Up {
			return false
		}
		off = off.Neg()
	}
	return off.Cmp(exact.Mul(share)) <= 0
}

// scale returns the steps of the scale in grams.
func (p Prefs) scale() Number {
	if p.Scale.Sign() <= 0 {
		return Int(1)
	}
	return p.Scale
}

// system returns the system in which an amount of u is shown.
func (p Prefs) system(u *Unit) System {
	if p.AsTyped {
		return u.System
	}
	return p.System
}

// Show returns an amount as a person would say it: "1.25 kg", "340 g", "¾ cup",
// "1 lb 4 oz", "2–3 cloves", "about 1.6 kg", "to taste"; "" for the zero Amount.
// Amounts are rounded here and in [ShowParts], and nowhere else.
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
		if s != to && shownAs(a.Qty, a.Unit, p).Cmp(shownAs(a.To, a.Unit, p)) < 0 {
			s = withoutUnit(s, to) + "–" + to
		} else {
			s = to
		}
	}
	if a.About {
		return "about " + s
	}
	return s
}

// shownAs returns n of u as it is shown, in base units.
func shownAs(n Number, u *Unit, p Prefs) Number {
	base := n.Mul(u.Factor)
	if f, ok := formOf(n, u, p); ok && !f.round(base).IsZero() {
		return f.round(base)
	}
	return base
}

// withoutUnit returns the lower end of a range without its unit where the upper end has
// the same and both are one figure: "2" of "2 cups" and "3 cups". "1 lb 4 oz" stays whole.
func withoutUnit(from, to string) string {
	i := strings.IndexFunc(from, unicode.IsLetter)
	if i < 2 || from[i-1] != ' ' {
		return from
	}
	figure, unit := from[:i-1], from[i-1:]
	if upper, ok := strings.CutSuffix(to, unit); !ok || strings.ContainsFunc(upper, unicode.IsLetter) || strings.ContainsFunc(unit, unicode.IsNumber) {
		return from
	}
	return figure
}

// show returns one figure with its unit.
func show(n Number, u *Unit, p Prefs) string {
	if f, ok := formOf(n, u, p); ok {
		base := n.Mul(u.Factor)
		if f.round(base).IsZero() && base.Sign() > 0 { // an amount above 0 is never shown as 0
			return speck(base, f.least)
		}
		return f.text(base)
	}
	if u.Dim == Length {
		return ShowNumber(n) + " " + u.Symbol
	}
	if p.Up && !eighths(n) && !n.Mul(Int(3)).IsInt() {
		n = p.round(n, Frac(1, 4))
	}
	if u == Each {
		return quarters(n)
	}
	return quarters(n) + " " + word(u, n)
}

// speck returns an amount that would round to zero, in thousandths of u.
func speck(base Number, u *Unit) string { return ShowNumber(base.Quo(u.Factor)) + " " + u.Symbol }

// word returns what is written after the figure n: the symbol, or the name in the
// singular or plural.
func word(u *Unit, n Number) string {
	if u.Symbol != u.Name {
		return u.Symbol
	}
	if n.Cmp(Int(1)) <= 0 {
		return u.Name
	}
	return u.Plural
}

// Written returns an amount as a cook types it, in a form that [ParseAmount] reads in
// one way only: "1500 g", "1.5–2 g", "1.1250 oz".
func Written(a Amount) string {
	figure := func(n Number) string {
		s := decimals(n, 6)
		if i := strings.IndexByte(s, '.'); i > 0 && i <= 3 && len(s)-i == 4 && s[0] != '0' && !a.Unit.scaleDecimals() {
			s += "0"
		}
		return s
	}
	s := figure(a.Qty)
	if !a.To.IsZero() {
		s += "–" + figure(a.To)
	}
	if british[a.Unit] != nil {
		s += " US" // "pt" alone is another pint by UK measures
	}
	if a.Unit.Symbol != "" {
		s += " " + a.Unit.Symbol
	}
	return s
}
