package larder

import (
	"cmp"
	"fmt"

	"hobside/internal/quantity"
)

// Own is what is known of a food beside the built-in table. What a card itself says is
// used first, then the kitchen's foods.
type Own struct {
	Each    quantity.Amount // what one weighs
	Density quantity.Number // g per ml
	Size    string          // of which size one is, as [SizeOf] has it, or [Juice] or [Zest]; "" where only its name may say
	UK      bool            // bought by British grades: an egg's size is then no US one
	Foods   *Foods          // the kitchen's own foods; nil for none
}

var gram, _ = quantity.LookupUnit("g")

// Convert returns n of an item in another unit, by its density or by what one piece
// weighs, and the basis in words: which figure was used and its source, "" where the
// units convert by themselves. Where no figure is known the error says what to write
// on the card.
func Convert(item string, n quantity.Number, from, to *quantity.Unit, own Own) (out quantity.Number, basis string, err error) {
	if out, ok := quantity.Convert(n, from, to); ok {
		return out, "", nil
	}
	one, basisIn, err := gramsOfOne(item, from, own)
	if err != nil {
		return quantity.Number{}, "", err
	}
	other, basisOut, err := gramsOfOne(item, to, own)
	if err != nil {
		return quantity.Number{}, "", err
	}
	if basisOut != "" && basisOut != basisIn {
		if basisIn != "" {
			basisIn += "; "
		}
		basisIn += basisOut
	}
	return n.Mul(one).Quo(other), basisIn, nil
}

// gramsOfOne returns what one unit of an item weighs in grams, and the basis.
func gramsOfOne(item string, u *quantity.Unit, own Own) (grams quantity.Number, basis string, err error) {
	if u == nil {
		return grams, "", fmt.Errorf("%s has no amount to convert", item)
	}
	switch u.Dim {
	case quantity.Mass:
		return u.Factor, "", nil
	case quantity.Volume:
		if own.Density.Sign() > 0 {
			return own.Density.Mul(u.Factor), "density from the card", nil
		}
		food := own.Foods.Nearest(item)
		if f := food.Density(); f.Value.Sign() > 0 {
			return f.Value.Mul(u.Factor), food.Name + " " + quantity.ShowNumber(f.Value) + " g/ml (" + f.Source + ")", nil
		}
		return grams, "", fmt.Errorf(`what a litre of %s weighs is not known: give it by weight, or put "density" on the card`, item)
	case quantity.Count:
		if own.Each.Unit != nil && own.Each.Qty.Sign() > 0 {
			if g, ok := quantity.Convert(own.Each.Qty, own.Each.Unit, gram); ok {
				return g, "each-weight from the card", nil
			}
			if own.Each.Unit.Dim == quantity.Volume { // a tin of 400 ml
				one, basis, err := gramsOfOne(item, own.Each.Unit, own)
				return own.Each.Qty.Mul(one), basis, err
			}
		}
		food := own.Foods.Nearest(item)
		if f := food.sized(u.Name, cmp.Or(own.Size, SizeOf(item)), own.UK); f.Value.Sign() > 0 {
			return f.Value, "one " + label(u, food.Food) + " " + quantity.ShowNumber(f.Value) + " g (" + f.Source + ")", nil
		}
		if own.Size == Zest {
			return grams, "", fmt.Errorf(`what the zest of one %s weighs is not known: give it by weight; until then it counts as 0 g`, nameOne(u, item))
		}
		return grams, "", fmt.Errorf(`what one %s weighs is not known: give it by weight, or put "each" on the card`, nameOne(u, item))
	}
	return grams, "", fmt.Errorf("a length of %s has no weight: give it by weight", item)
}

// label names one unit of a food in a basis: "clove of garlic".
func label(u *quantity.Unit, f *Food) string {
	if u == quantity.Each {
		return f.Name
	}
	return u.Name + " of " + f.Name
}

// nameOne names one unit of an item in an error.
func nameOne(u *quantity.Unit, item string) string {
	if u == quantity.Each {
		return item
	}
	return u.Name + " of " + item
}

// UsedWhole reports whether pieces of an item are only used whole (bay leaves, star
// anise): a batch that needs 2.3 of them takes 3. What a cook reads and what is bought
// both follow it, by [Taken].
func UsedWhole(item string, unit *quantity.Unit) bool {
	food := Nearest(item).Food
	one := unit == quantity.Each || unit != nil && unit.Name == "leaf"
	return one && food != nil && food.Whole()
}

// Taken returns how many pieces of an item that is [UsedWhole] one batch takes.
func Taken(need quantity.Number) quantity.Number { return need.Ceil() }

// Show returns an amount of an item as text, and beside it what a cook needs to
// measure it. A fraction of something countable is given by weight, with how many to
// take (3.4 eggs: "170 g", "crack 4"; 2.7 leaves: "4.3 g", "2.7 leaves"). Where only
// whole ones are used (bay leaves, star anise) the count is rounded up.
func Show(item string, a quantity.Amount, own Own, p quantity.Prefs) (text, aside string) {
	p.Tight = p.Tight || Exacting(item)
	if aside = againByDensity(a, own, p); aside != "" {
		return quantity.Show(a, p), aside
	}
	food := own.Foods.Nearest(item).Food
	if food.Is("gelatine") && a.Unit != nil && a.To.IsZero() && !a.ToTaste {
		return showGelatine(item, a, own, p)
	}
	if a.Unit == nil || a.Unit.Dim != quantity.Count || !a.To.IsZero() || a.Qty.IsInt() {
		return quantity.Show(a, p), ""
	}
	if UsedWhole(item, a.Unit) {
		a.Qty = Taken(a.Qty)
		return quantity.Show(a, p), ""
	}
	grams, _, err := gramsOfOne(item, a.Unit, own)
	if err != nil || a.Unit.Name == "bunch" || a.Unit.Name == "sprig" || a.Unit.Name == "head" || a.Unit.Name == "stalk" {
		return quantity.Show(a, p), "" // cooks do say half a bunch
	}
	text = quantity.Show(quantity.Amount{Qty: a.Qty.Mul(grams), Unit: gram}, p)
	switch {
	case food.Is("egg") || food.Is("egg yolk") || food.Is("egg white"):
		return text, "crack " + a.Qty.Ceil().String()
	case a.Unit == quantity.Each:
		return text, "from " + a.Qty.Ceil().String()
	}
	return text, quantity.ShowNumber(a.Qty) + " " + a.Unit.Plural
}

var millilitre, _ = quantity.LookupUnit("ml")

// againByDensity returns the weight of a volume, or the volume of a weight, of which a card
// gives both: "450 g" beside 2 cups. It is "" where the card gives one.
func againByDensity(a quantity.Amount, own Own, p quantity.Prefs) string {
	if own.Density.Sign() <= 0 || a.Unit == nil || !a.To.IsZero() {
		return ""
	}
	base := a.Qty.Mul(a.Unit.Factor)
	switch a.Unit.Dim {
	case quantity.Volume:
		return quantity.Show(quantity.Amount{Qty: base.Mul(own.Density), Unit: gram}, p)
	case quantity.Mass:
		return quantity.Show(quantity.Amount{Qty: base.Quo(own.Density), Unit: millilitre}, p)
	}
	return ""
}
