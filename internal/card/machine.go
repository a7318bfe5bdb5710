package card

import (
	"strings"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// fills reads what a machine holds ("2 L") and how full it is filled ("half full", "60 %
// full"). It reports whether the part says that. What heats or has shelves is no such machine.
func (p *parser) fills(e *Equipment, part string) bool {
	if std, ok := document.FindEquipment(e.Name); ok && (std.Heat || std.Temp || std.Place != "") {
		return false
	}
	if share, ok := strings.CutSuffix(strings.ToLower(part), " full"); ok {
		named := map[string]quantity.Number{"half": quantity.Frac(1, 2), "a third": quantity.Frac(1, 3), "two thirds": quantity.Frac(2, 3), "three quarters": quantity.Frac(3, 4)}
		if e.Full = named[share]; e.Full.IsZero() {
			n, ok := document.Percent(share)
			if !ok || n.Sign() <= 0 || n.Cmp(quantity.Int(100)) > 0 {
				return false
			}
			e.Full = n.Quo(quantity.Int(100))
		}
		return true
	}
	a, rest, err := p.Measures.ParseAmount(part)
	if err != nil || rest != "" || a.Unit == nil || a.Unit.Dim != quantity.Volume || a.Qty.Sign() <= 0 {
		return false
	}
	e.Holds = a
	return true
}

// machineLoad gives a step without a load that of its machine: half of 2 L is 1 L.
func (s *Step) machineLoad() {
	for _, q := range s.Equipment {
		if s.Load.Unit == nil && q.Holds.Unit != nil {
			s.Load = q.Filled(q.Holds)
		}
	}
}

// Filled returns how much goes into a machine that holds so much.
func (q *Equipment) Filled(holds quantity.Amount) quantity.Amount {
	if q.Full.IsZero() {
		return holds
	}
	return holds.Scale(q.Full)
}

// between converts an amount of food from weight to volume or back, where no unit converts
// by itself: by the density where that is known, else as water, at 1 kg a litre.
func between(name string, n quantity.Number, from, to *quantity.Unit, own larder.Own) (out quantity.Number, asWater, ok bool) {
	if out, ok := quantity.Convert(n, from, to); ok {
		return out, false, true
	}
	if from == nil || from.Dim == to.Dim || from.Dim == quantity.Count || to.Dim == quantity.Count {
		return out, false, false
	}
	if out, _, err := larder.Convert(name, n, from, to, own); err == nil {
		return out, false, true
	}
	return n.Mul(from.Factor).Quo(to.Factor), true, true // factors are grams and millilitres
}
