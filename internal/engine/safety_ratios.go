package engine

import (
	"fmt"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/quantity"
	"hobside/internal/safety"
)

// asides sets what sets, thickens, salts and sweetens beside published working
// ranges: said where it lies outside, and where a syrup's strength follows from
// the formula or from its boil. Never a problem: a cook may mean it.
func asides(c *card.Card, ratios []demand.Ratio, whole quantity.Number) []string {
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
