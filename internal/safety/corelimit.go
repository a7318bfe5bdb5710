package safety

import (
	"strings"

	"hobside/internal/quantity"
)

// Core is a core temperature that a step asks for, as its critical limit.
type Core struct {
	C       float64 // in °C
	Minutes float64 // how long the food is held there; 0: not said
}

// probeMinutes is the holding time that a limit without a time stands for, in minutes: a
// probe takes that long to come to rest in the food. Our own working rule.
const probeMinutes = 0.5

// String returns the limit as it is shown: "57 °C", "57 °C for 36 min".
func (k Core) String() string {
	if k.Minutes == 0 {
		return Celsius(k.C)
	}
	return Celsius(k.C) + " for " + Span(k.Minutes)
}

// text returns the limit as it is shown to a kitchen of a rule set: under the US code in
// both units, since the card may be typed in either.
func (k Core) text(rules Rules) string {
	text, rest, _ := strings.Cut(k.String(), " °C")
	if text += " °C"; rules == US {
		text = inBoth(k.C, quantity.Fahrenheit(k.C))
	}
	return text + rest
}

// ToType returns what to type for a limit: its temperature, with its time where that is
// longer than a probe takes: "74 °C", "70 °C for 2 min".
func (l Limit) ToType() string {
	k := Core{C: l.TempC}
	if l.HasTime && !l.AtOnce && !l.Stand && l.Minutes > probeMinutes {
		k.Minutes = l.Minutes
	}
	return k.String()
}

// reaches reports whether a core limit is as warm as a row asks, in either of the row's
// two units.
func (k Core) reaches(l Limit) bool { return k.C >= l.compared().TempC-1e-9 }

// meets reports whether a core limit is as warm as a row asks, and held as long.
func (k Core) meets(l Limit) bool {
	held := k.Minutes
	if held == 0 {
		held = probeMinutes
	}
	return k.reaches(l) && (l.AtOnce || l.Stand || held >= l.Minutes-1e-9)
}

// CookFood returns what a rule set asks of the core of a raw food of a class, as [Cook]
// does, and for a whole roast, which its name must say, the table for roasts as well.
func CookFood(rules Rules, class Class, name string) []Limit {
	rows := Cook(rules, class)
	if wholeRoast(class, name) {
		rows = append(Cook(rules, Roast), rows...)
	}
	return rows
}

// Names of whole roasts, and of pieces that are none whatever else their name says: our
// own compilation. The code's table is for "whole meat roasts": US FDA Food Code
// 3-401.11(B), read.
const (
	roastWords = "roast, joint, leg, shoulder, loin, striploin, sirloin, tenderloin, fillet, saddle, rack, crown, topside, silverside, rump, brisket, chuck, round, chump," +
		" haunch, prime rib, rib of beef, beef rib, rib eye, ribeye, fore rib, forerib, wing rib, best end, tri tip, picanha, gammon, corned beef"
	pieceWords = "steak, chop, cutlet, escalope, schnitzel, scallopini, scaloppine, medallion, noisette, tournedos, paillard, dice, diced, cube, cubed, strip, slice, sliced, mince, minced," +
		" ground, belly, stir fry, stewing, stew, kebab, skewer, bacon, lardon, burger, spare rib, sparerib, short rib, baby back, back rib, rack of rib, goujon, piece, chunk, collop," +
		" butterflied, pulled, shredded, shaved, trimming, cheek, shank, hock, pork rib, tip"
)

// wholeRoast reports whether the name of a whole cut is that of a whole roast.
func wholeRoast(class Class, name string) bool {
	if class != Beef && class != Pork && class != Lamb {
		return false
	}
	t := tokens(name)
	return hasAny(t, roastWords) && !hasAny(t, pieceWords)
}

// inMicrowave returns what a rule set asks of raw food that is cooked in a microwave
// oven, where its heat is uneven; ok is false where it has no such rule.
func inMicrowave(rules Rules, class Class) (Limit, bool) {
	for _, l := range For(rules, CookTo, class) {
		if l.Stand && l.HasTemp {
			return l, true
		}
	}
	return Limit{}, false
}

// underRules compares the core limits of a step with what the rules ask of a food. kind
// is TooLow where none is as warm as any row, with the warmest; TooShort where none is
// held as long as the row that it reaches, with that limit and that row; "" where one is
// enough, or where the rules have no row. Without rules, those of either set are enough.
func underRules(rules Rules, class Class, item string, microwave bool, cores []Core) (kind GapKind, worst Core, row Limit) {
	of := func(rules Rules) []Limit {
		if l, ok := inMicrowave(rules, class); ok && microwave {
			return []Limit{l}
		}
		return CookFood(rules, class, item)
	}
	rows := of(rules)
	if rules == "" {
		rows = append(of(US), of(UK)...)
	}
	if len(rows) == 0 {
		return "", Core{}, Limit{}
	}
	kind = TooLow
	for _, k := range cores {
		if kind == TooLow && k.C >= worst.C {
			worst = k
		}
		for _, l := range rows {
			switch {
			case k.meets(l):
				return "", Core{}, Limit{}
			case k.reaches(l) && (kind == TooLow || l.Minutes < row.Minutes):
				kind, worst, row = TooShort, k, l
			}
		}
	}
	return kind, worst, row
}
