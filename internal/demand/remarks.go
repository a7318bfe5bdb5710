package demand

import (
	"fmt"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// Remarks compares what sets, thickens, salts and sweetens with published working
// ranges, and says where an amount is outside them and where a syrup's strength
// follows from the formula or from its boiling point. They are never problems: an
// author may mean it.
func Remarks(c *card.Card, ratios []Ratio, whole quantity.Number) []string {
	out := []string{}
	add := func(s string) {
		if s != "" {
			out = append(out, s)
		}
	}
	total := float(whole)
	flour, meat, hundred := true, true, 0
	for i, r := range ratios {
		if r.Hundred {
			hundred++
			flour = flour && strings.Contains(strings.ToLower(c.Items[i].Name), "flour")
			meat = meat && len(safety.Cook(safety.US, safety.ClassOf(c.Items[i].Name))) > 0
		}
	}
	sugar, water := 0.0, 0.0
	for i, it := range c.Items {
		g := float(ratios[i].Grams)
		if g <= 0 || total <= 0 {
			continue
		}
		add(safety.Aside(it.Name, 100*g/total, "the whole"))
		if p := float(ratios[i].Percent); hundred > 0 && !ratios[i].Hundred && ratios[i].Why == "" {
			if flour {
				add(safety.Aside(it.Name, p, "the flour"))
			}
			if meat && p < 6 { // above it, a cure that is rinsed off
				add(safety.Aside(it.Name, p, "the meat"))
			}
		}
		switch low := strings.ToLower(it.Name); {
		case strings.HasSuffix(low, "sugar"):
			sugar += g
		case low == "water":
			water += g
		}
	}
	if sugar > 0 && water > 0 && sugar+water > 0.97*total {
		if s, err := safety.SyrupAt(100 * sugar / (sugar + water)); err == nil {
			add(fmt.Sprintf("%.0f °Brix as weighed: %s", s.Brix, s.Source))
		}
	}
	for i := range c.Steps {
		if at, ok := c.Steps[i].Syrup(); ok {
			if s, err := safety.SyrupBoiling(at, 0); err == nil {
				add(fmt.Sprintf("a sugar syrup that boils at %s is at about %.0f °Brix, by the sea: %s", safety.Celsius(at), s.Brix, s.Source))
			}
		}
	}
	return out
}

// float returns a number near enough for a comparison with a range. It goes by way
// of text: the exact way divides large integers, and every phone would fetch the
// code for that.
func float(n quantity.Number) float64 {
	f, _ := strconv.ParseFloat(n.Decimal(6), 64)
	return f
}

// TrimOf returns the share of an item that is lost in trimming, and whose word that
// is: "the card", or the food table's source. It is 0 where nothing is lost or known.
func TrimOf(c *card.Card, it *card.Item) (share quantity.Number, source string) {
	if !it.Trim.IsZero() {
		return it.Trim, "the card"
	}
	if f := c.Foods.Nearest(it.Name).Trim(); f.Known() && !Untrimmed(it.Prep) {
		return f.Value, f.Source
	}
	return quantity.Number{}, ""
}

// YieldOf returns what a card makes as a share of all its items together, whose
// mass in grams is whole. ok is false where the mass of an item or of what it makes
// is not known.
func YieldOf(c *card.Card, ratios []Ratio, whole quantity.Number) (share quantity.Number, ok bool) {
	for _, r := range ratios {
		if r.Why != "" && r.Why != "to taste" {
			return quantity.Number{}, false
		}
	}
	if whole.Sign() <= 0 || c.Makes.Unit == nil {
		return quantity.Number{}, false
	}
	gram, _ := quantity.LookupUnit("g")
	n, _, err := larder.Convert(c.Title, c.Makes.Qty, c.Makes.Unit, gram, c.Own())
	if err != nil {
		return quantity.Number{}, false
	}
	return n.Quo(whole), true
}
