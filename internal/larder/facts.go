package larder

import (
	"maps"
	"slices"
	"strconv"
	"strings"
)

// A Fact is one thing that is known of a food, in words, with its unit and where it comes from.
type Fact struct {
	Word    string `json:"word"`    // "one weighs"
	Value   string `json:"value"`   // "150 g"
	Source  string `json:"source"`  // "SR28 11282"; "" where the line before says it
	Assumed bool   `json:"assumed"` // it is that of a broader food, or only probable
}

// Facts returns what is known of the item as a person reads it, without what 100 g of it
// consist of. What is not known is left out, but for the allergens: there it is said.
func (d *Description) Facts() []Fact {
	var out []Fact
	add := func(word, value, source string) {
		if value != "" {
			out = append(out, Fact{word, value, source, lent(source)})
		}
	}
	add("same as", strings.Join(d.SameAs, ", "), "")
	if d.AsFor != "" {
		out = append(out, Fact{"as for", d.AsFor, "", true})
	}
	add("section", d.Section, "")
	add("allergens", d.allergens(), d.Sources["eu"])
	add("may contain", twoLists(d.EUMay, d.USMay), d.Sources["eu"])
	if d.Open && d.Assessed {
		add("not assessed", "what else is in it: read the label", "")
	}
	add("animal", joined(d.Animals), "")
	add("may be of", joined(d.AnimalsMay), "")
	add("heat class", string(d.HeatClass), d.Sources["heat_class"])
	add("bought by", d.BoughtBy, d.Sources["bought_by"])
	if d.Keeps != nil {
		add("keeps", strconv.Itoa(*d.Keeps)+" d as bought", d.Sources["keeps_days"])
	}
	add("one weighs", decimal(d.Each, "g"), d.Sources["each_g"])
	for _, unit := range slices.Sorted(maps.Keys(d.Weights)) {
		grams := d.Weights[unit]
		add("one "+unit, decimal(&grams, "g"), d.Sources["weights_g."+unit])
	}
	add("density", decimal(d.Density, "g/ml"), d.Sources["g_per_ml"])
	add("trim", decimal(d.Trim, "%"), d.Sources["trim_pct"])
	return out
}

// joined names classes of animals.
func joined(animals []Animal) string {
	var out []string
	for _, a := range animals {
		out = append(out, string(a))
	}
	return strings.Join(out, ", ")
}

// allergens returns what the item has of the two lists, or that nobody has assessed it.
func (d *Description) allergens() string {
	switch {
	case len(d.EU)+len(d.US) > 0:
		return twoLists(d.EU, d.US)
	case d.Assessed:
		return "none of the two lists"
	}
	return "not assessed"
}

// twoLists names what is on the EU's list and on the US's, "" for neither.
func twoLists(eu, us []string) string {
	var parts []string
	if len(eu) > 0 {
		parts = append(parts, "EU: "+strings.Join(eu, ", "))
	}
	if len(us) > 0 {
		parts = append(parts, "US: "+strings.Join(us, ", "))
	}
	return strings.Join(parts, "; ")
}

// decimal returns a figure with its unit, "" for one that is not known.
func decimal(x *float64, unit string) string {
	if x == nil {
		return ""
	}
	return strconv.FormatFloat(*x, 'f', -1, 64) + " " + unit
}

// lent reports whether a source says that a figure is another food's, or only probable.
func lent(source string) bool {
	return strings.Contains(source, "as for ") || strings.Contains(source, "probably")
}
