package demand

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A Ratio is one item of a formula in percent of the items at 100 %.
type Ratio struct {
	Item    int             // 1 + index in the card's formula
	Grams   quantity.Number // of one batch by the formula as typed
	Percent quantity.Number // 0 when Why is set
	Hundred bool            // one of the items at 100 %
	Basis   string          // source of the weight of a volume or a count, "" for a weight
	Why     string          // why there is no percentage, "" when there is one
}

// Ratios returns a card's formula in percent of one item or several: baker's
// percentages, gelatine on the liquid, salt on the water. Hundred holds the items
// at 100 %, 1 + index; when it is empty they are the flours, else the heaviest
// item. Whole is the weight of all items in grams. An item whose weight is not
// known says why and has no percentage.
func Ratios(c *card.Card, hundred []int) (ratios []Ratio, whole quantity.Number) {
	gram, _ := quantity.LookupUnit("g")
	for i := range c.Items {
		it := &c.Items[i]
		r := Ratio{Item: i + 1}
		switch {
		case it.Amount.ToTaste:
			r.Why = "to taste"
		case it.Amount.Unit == nil:
			r.Why = "no amount"
		default:
			n, basis, err := larder.Convert(it.Name, it.Amount.Need(), it.Amount.Unit, gram, c.OwnOf(it))
			if err != nil {
				r.Why = err.Error()
			}
			r.Grams, r.Basis = n, basis
		}
		whole = whole.Add(r.Grams)
		ratios = append(ratios, r)
	}
	if len(hundred) == 0 {
		hundred = usual(c, ratios)
	}
	var base quantity.Number
	for i := range ratios {
		if slices.Contains(hundred, i+1) && ratios[i].Why == "" {
			ratios[i].Hundred = true
			base = base.Add(ratios[i].Grams)
		}
	}
	if base.IsZero() {
		return ratios, whole
	}
	for i := range ratios {
		ratios[i].Percent = ratios[i].Grams.Quo(base).Mul(quantity.Int(100))
	}
	return ratios, whole
}

// usual returns the items at 100 % where the caller names none.
func usual(c *card.Card, ratios []Ratio) []int {
	var flours []int
	heaviest := 0
	for i, r := range ratios {
		if r.Why != "" {
			continue
		}
		name := strings.ToLower(c.Items[i].Name)
		if strings.HasSuffix(name, "flour") || strings.HasSuffix(name, "flours") {
			flours = append(flours, i+1)
		}
		if r.Grams.Cmp(ratios[heaviest].Grams) > 0 || ratios[heaviest].Why != "" {
			heaviest = i
		}
	}
	switch {
	case len(flours) > 0:
		return flours
	case len(ratios) == 0:
		return nil
	}
	return []int{heaviest + 1}
}
