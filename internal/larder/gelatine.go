package larder

import (
	"strings"

	"hobside/internal/quantity"
)

// blooms are the strengths in which leaf gelatine is sold. Makers differ, and the
// figures are trade practice from memory. The cook is told so beside them.
var blooms = [...]struct{ grade, bloom string }{
	{"bronze", "125–155 Bloom"}, {"silver", "160 Bloom"}, {"gold", "190–220 Bloom"}, {"platinum", "235–265 Bloom"}, {"titanium", "100–120 Bloom"},
}

// showGelatine returns gelatine by weight, with its leaves and its strength beside it:
// a leaf alone is no measure, because makers fit its weight to its strength. For an
// amount typed by weight the leaves are given only where the card says what one weighs.
func showGelatine(item string, a quantity.Amount, own Own, p quantity.Prefs) (text, aside string) {
	text = quantity.Show(a, p)
	grams, _, err := gramsOfOne(item, a.Unit, own)
	if err != nil {
		return text, ""
	}
	weight := quantity.Amount{Qty: a.Qty.Mul(grams), Unit: gram}
	fine := p
	fine.Scale = quantity.Frac(1, 10) // a gram of gelatine more sets a dish too firm
	var parts []string
	switch leaf, ok := leafWeight(own); {
	case a.Unit.Dim == quantity.Count && a.Qty.IsInt():
		parts = append(parts, quantity.Show(weight, fine))
	case a.Unit.Dim == quantity.Count:
		text = quantity.Show(weight, fine)
		parts = append(parts, leaves(a.Qty))
	default:
		text = quantity.Show(a, fine)
		if ok {
			parts = append(parts, leaves(weight.Qty.Quo(leaf)))
		}
	}
	for _, b := range blooms {
		if strings.Contains(strings.ToLower(item), b.grade) {
			parts = append(parts, b.bloom+" by trade practice")
		}
	}
	return text, strings.Join(parts, ", ")
}

// leafWeight returns what one leaf weighs in grams by the card; ok is false where the
// card does not say.
func leafWeight(own Own) (quantity.Number, bool) {
	if own.Each.Unit == nil || own.Each.Qty.Sign() <= 0 {
		return quantity.Number{}, false
	}
	return quantity.Convert(own.Each.Qty, own.Each.Unit, gram)
}

// leaves returns a number of leaves as text.
func leaves(n quantity.Number) string {
	if n.Cmp(quantity.Int(1)) == 0 {
		return "1 leaf"
	}
	return quantity.ShowNumber(n) + " leaves"
}
