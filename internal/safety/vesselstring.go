package safety

import (
	"strconv"
	"strings"
)

// String returns the vessel in words that [ParseVessel] reads.
func (v Vessel) String() string {
	var out []string
	add := func(s string) { out = append(out, s) }
	cm := func(m float64) string { return strconv.FormatFloat(roundTo(m*100), 'f', -1, 64) + " cm" }
	c := func(c float64) string {
		return strings.Replace(strconv.FormatFloat(roundTo(c), 'f', -1, 64), "-", "−", 1) + " °C"
	}
	if v.Kg > 0 {
		add(strconv.FormatFloat(roundTo(v.Kg), 'f', -1, 64) + " kg")
	}
	if v.Class != NotKnown {
		add(string(v.Class))
	}
	if v.Thin {
		add("thin")
	}
	if v.Thick {
		add("thick")
	}
	if v.Roll {
		add("a roll")
	}
	if v.Ball {
		add("a ball")
	}
	if v.DepthM > 0 {
		add(cm(v.DepthM) + " deep")
	}
	if v.AcrossM > 0 {
		add(cm(v.AcrossM) + " across")
	}
	if v.LengthM > 0 {
		add(strings.TrimSuffix(cm(v.LengthM), " cm") + " × " + cm(v.WidthM))
	}
	if v.Place != "" {
		place := map[string]string{"bench": "on the bench", "blast": "in a blast chiller", "fridge": "in the fridge"}[v.Place]
		if place == "" {
			place = "in an " + v.Place
			if v.Place == "stirred ice bath" {
				place = "in a " + v.Place
			}
		}
		if v.HasPlace {
			place += " at " + c(v.PlaceC)
		}
		add(place)
	}
	if v.HasFrom {
		add("from " + c(v.FromC))
	}
	return strings.Join(out, ", ")
}

// roundTo returns x to three decimals.
func roundTo(x float64) float64 {
	n, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'f', 3, 64), 64)
	return n
}
