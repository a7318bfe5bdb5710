package larder

import "strings"

// exacting are words of goods of which a few per cent too much spoils a dish or can hurt
// someone: salts and cures, yeast, gelling and raising agents. Common practice, no source.
var exacting = map[string]bool{
	"salt": true, "nitrite": true, "nitrate": true, "saltpetre": true, "saltpeter": true, "cure": true, "yeast": true, "gelatine": true, "gelatin": true, "agar": true,
	"pectin": true, "xanthan": true, "gellan": true, "carrageenan": true, "alginate": true, "methylcellulose": true, "rennet": true, "bicarbonate": true, "transglutaminase": true,
	"ammonia": true, "ammonium": true, "potash": true,
}

// exactingPhrases are those of more than one word.
var exactingPhrases = [...]string{"baking powder", "baking soda", "cream of tartar", "guar gum", "locust bean gum", "citric acid", "ascorbic acid", "lactic acid", "calcium "}

// Exacting reports whether an item is a good that is weighed to the per cent.
func Exacting(item string) bool {
	name, _, _ := strings.Cut(strings.ToLower(item), ",")
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return r < 'a' || r > 'z' }) {
		if exacting[w] {
			return true
		}
	}
	for _, phrase := range exactingPhrases {
		if strings.Contains(name, phrase) {
			return true
		}
	}
	return false
}
