package safety

import (
	"fmt"
	"math"
	"strconv"
)

// Working is a published or usual working range of something that sets, thickens or
// salts.
type Working struct {
	Item   string  // "agar"
	Use    string  // "soft set, mousse"; empty: every use
	Low    float64 // percent
	High   float64
	Of     string // of what: "the whole", "the flour", "the meat"
	Note   string
	Source Source
	words  string // its names, as phrases with commas between
}

var (
	hydrocolloids = Source{"Phillips and Williams, Handbook of Hydrocolloids (general range)", "", Memory}
	ownRange      = Source{"own working range", "", Practice}
)

// working is the table. The rows of one item are next to each other.
var working = []Working{
	{"gelatine", "soft set, mousse", 0.6, 1.0, "the whole", "200 Bloom", ownRange, "gelatine, gelatin, leaf gelatine, powdered gelatine"},
	{"gelatine", "jelly to slice", 1.5, 2.5, "the whole", "200 Bloom", ownRange, "gelatine, gelatin, leaf gelatine, powdered gelatine"},
	{"gelatine", "aspic, terrine", 2, 3, "the whole", "200 Bloom", ownRange, "gelatine, gelatin, leaf gelatine, powdered gelatine"},
	{"gelatine", "gums", 6, 10, "the whole", "250 Bloom", ownRange, "gelatine, gelatin, leaf gelatine, powdered gelatine"},
	{"agar", "", 0.2, 1.5, "the whole", "to 2 for very firm; boil it for about a minute", Source{"ingredient data", "", Memory}, "agar, agar agar"},
	{"low acyl gellan", "", 0.2, 1.0, "the whole", "", hydrocolloids, "low acyl gellan, gellan low acyl"},
	{"high acyl gellan", "", 0.2, 0.6, "the whole", "", hydrocolloids, "high acyl gellan, gellan high acyl"},
	{"high methoxyl pectin", "", 0.3, 1.0, "the whole", "solids over 55 %, pH 2.8 to 3.5", hydrocolloids, "high methoxyl pectin, hm pectin"},
	{"low methoxyl pectin", "", 0.5, 1.5, "the whole", "needs calcium", hydrocolloids, "low methoxyl pectin, lm pectin"},
	{"xanthan", "", 0.1, 0.5, "the whole", "", hydrocolloids, "xanthan, xanthan gum"},
	{"sodium alginate", "", 0.4, 1.0, "the whole", "with calcium", hydrocolloids, "alginate, sodium alginate"},
	{"methylcellulose", "", 0.5, 2.0, "the whole", "gels hot", hydrocolloids, "methylcellulose, methyl cellulose"},
	{"lecithin", "foam", 0.2, 0.6, "the whole", "", hydrocolloids, "lecithin, soy lecithin"},
	{"guar gum", "", 0.1, 0.7, "the whole", "", hydrocolloids, "guar, guar gum"},
	{"locust bean gum", "", 0.1, 1.0, "the whole", "hydrate hot, 80 to 85 °C", hydrocolloids, "locust bean gum, carob gum"},
	{"carrageenan", "", 0.2, 0.8, "the whole", "", Source{"property table of a supplier", "", Read}, "carrageenan, kappa carrageenan, iota carrageenan"},
	{"maize starch", "", 1.5, 6, "the whole", "", hydrocolloids, "maize starch, cornflour, cornstarch"},
	{"salt", "bread", 1.8, 2.2, "the flour", "", ownRange, "salt, sea salt, fine salt"},
	{"salt", "dry cure to balance", 2, 3, "the meat", "", ownRange, "salt, sea salt, fine salt"},
}

// Ranges returns the working ranges of an item by its name, none for an item that has
// none. A curing salt has none: the law limits it, and no range of salt is a dose of
// nitrite.
func Ranges(item string) []Working {
	t := tokens(item)
	if hasAny(t, "curing, cure, nitrite, nitrited, nitrate, saltpetre, saltpeter") {
		return nil
	}
	var out []Working
	for _, w := range working {
		if hasAny(t, w.words) {
			out = append(out, w)
		}
	}
	return out
}

// Aside returns a remark on an item's strength, in percent of what the ranges are of,
// with its usual ranges and their source. of selects the ranges ("the whole", "the
// flour", "the meat"). It is "" where there is no range to compare with and where the
// strength is in one of them.
func Aside(item string, percent float64, of string) string {
	var all []Working
	for _, w := range Ranges(item) {
		if w.Of == of {
			all = append(all, w)
		}
	}
	if len(all) == 0 || math.IsNaN(percent) || percent <= 0 {
		return ""
	}
	out := fmt.Sprintf("%s at %s %% of %s", all[0].Item, figure(percent), of)
	for i, w := range all {
		if percent >= w.Low && percent <= w.High {
			return ""
		}
		out += [...]string{"; usual: ", ", "}[min(i, 1)]
		if w.Use != "" {
			out += w.Use + " "
		}
		out += figure(w.Low) + " to " + figure(w.High)
	}
	return out + " %: " + all[0].Source.String()
}

// figure returns a percentage with two decimals at most.
func figure(p float64) string { return strconv.FormatFloat(math.Round(p*100)/100, 'f', -1, 64) }
