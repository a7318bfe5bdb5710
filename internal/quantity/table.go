package quantity

import "strings"

// units is the table of units. Every factor is exact by definition: the litre is
// 1000 cm³, the pound 453.59237 g, the US gallon 231 cubic inches, the imperial
// gallon 4.54609 L (UK Weights and Measures Act 1985, Sch. 1); the others are whole
// parts of these.
var units = buildUnits()

// buildUnits returns the table.
func buildUnits() []*Unit {
	usGallon := Frac(3785411784, 1000000)
	impGallon := Frac(454609, 100)
	pound := Frac(45359237, 100000)
	us := func(part int64) Number { return usGallon.Quo(Int(part)) }
	imp := func(part int64) Number { return impGallon.Quo(Int(part)) }
	all := []*Unit{
		Each,
		{"milligram", "milligrams", "mg", Mass, Frac(1, 1000), Metric},
		{"gram", "grams", "g", Mass, Int(1), Metric},
		{"kilogram", "kilograms", "kg", Mass, Int(1000), Metric},
		{"ounce", "ounces", "oz", Mass, pound.Quo(Int(16)), US},
		{"pound", "pounds", "lb", Mass, pound, US},
		{"millilitre", "millilitres", "ml", Volume, Int(1), Metric},
		{"centilitre", "centilitres", "cl", Volume, Int(10), Metric},
		{"decilitre", "decilitres", "dl", Volume, Int(100), Metric},
		{"litre", "litres", "L", Volume, Int(1000), Metric},
		{"teaspoon", "teaspoons", "tsp", Volume, us(768), US},
		{"tablespoon", "tablespoons", "tbsp", Volume, us(256), US},
		{"fluid ounce", "fluid ounces", "fl oz", Volume, us(128), US},
		{"cup", "cups", "cup", Volume, us(16), US},
		{"pint", "pints", "pt", Volume, us(8), US},
		{"quart", "quarts", "qt", Volume, us(4), US},
		{"gallon", "gallons", "gal", Volume, usGallon, US},
		{"imperial fluid ounce", "imperial fluid ounces", "imp fl oz", Volume, imp(160), Imperial},
		{"imperial gill", "imperial gills", "imp gill", Volume, imp(32), Imperial},
		{"imperial pint", "imperial pints", "imp pt", Volume, imp(8), Imperial},
		{"imperial quart", "imperial quarts", "imp qt", Volume, imp(4), Imperial},
		{"imperial gallon", "imperial gallons", "imp gal", Volume, impGallon, Imperial},
		{"metric cup", "metric cups", "metric cup", Volume, Int(250), Metric},
		{"metric tablespoon", "metric tablespoons", "metric tbsp", Volume, Int(15), Metric},
		{"metric teaspoon", "metric teaspoons", "metric tsp", Volume, Int(5), Metric},
		{"australian tablespoon", "australian tablespoons", "aus tbsp", Volume, Int(20), Metric},
		{"millimetre", "millimetres", "mm", Length, Int(1), Metric},
		{"centimetre", "centimetres", "cm", Length, Int(10), Metric},
		{"inch", "inches", "in", Length, Frac(254, 10), US},
	}
	// Kitchen counts. Each is a kind of its own: it converts only by what one weighs.
	for _, w := range []string{
		"pinch/pinches", "bunch/bunches", "leaf/leaves", "clove/cloves", "sheet/sheets", "sprig/sprigs", "stick/sticks",
		"slice/slices", "piece/pieces", "plate/plates", "portion/portions", "knob/knobs", "handful/handfuls", "head/heads",
		"stalk/stalks", "pod/pods", "can/cans", "tin/tins", "packet/packets", "jar/jars", "bag/bags", "bottle/bottles",
		"loaf/loaves", "fillet/fillets", "rasher/rashers", "drop/drops", "dash/dashes", "strip/strips", "cube/cubes",
		"ball/balls", "wedge/wedges", "round/rounds", "cover/covers", "tray/trays", "load/loads",
		"pot/pots", "ramekin/ramekins", "glass/glasses", "scoop/scoops", "bowl/bowls", "mould/moulds", "box/boxes", "punnet/punnets",
		"sachet/sachets", "tub/tubs", "carton/cartons", "splash/splashes", "squeeze/squeezes", "drizzle/drizzles", "dollop/dollops",
	} {
		one, many, _ := strings.Cut(w, "/")
		all = append(all, &Unit{one, many, one, Count, Int(1), Kitchen})
	}
	return all
}

// spellings maps other ways to type a unit to its name. They are in lower case but for T
// and C: cooks who write one letter mean a tablespoon by T and a teaspoon by t.
var spellings = map[string]string{
	"gr": "gram", "grs": "gram", "gramme": "gram", "grammes": "gram", "kilo": "kilogram", "kilos": "kilogram", "kgs": "kilogram",
	"milliliter": "millilitre", "milliliters": "millilitre", "liter": "litre", "liters": "litre", "l": "litre", "lt": "litre", "cc": "millilitre",
	"centiliter": "centilitre", "deciliter": "decilitre", "lbs": "pound", "ozs": "ounce",
	"t": "teaspoon", "tsps": "teaspoon", "teaspoonful": "teaspoon", "teaspoonfuls": "teaspoon",
	"T": "tablespoon", "tb": "tablespoon", "tbs": "tablespoon", "tbl": "tablespoon", "tbls": "tablespoon", "tblsp": "tablespoon", "tbsps": "tablespoon",
	"tablespoonful": "tablespoon", "tablespoonfuls": "tablespoon", "c": "cup", "C": "cup", "cupful": "cup", "cupfuls": "cup",
	"floz": "fluid ounce", "fl ozs": "fluid ounce", "fluid oz": "fluid ounce", "gals": "gallon", "qts": "quart", "pts": "pint",
	"millimeter": "millimetre", "millimeters": "millimetre", "centimeter": "centimetre", "centimeters": "centimetre",
	"serving": "portion", "servings": "portion", "mold": "mould", "molds": "mould", "envelope": "sachet", "envelopes": "sachet",
	"pc": "piece", "pcs": "piece", "pkt": "packet", "pkg": "packet", "pkgs": "packet", "package": "packet", "packages": "packet", "leafs": "leaf", "pack": "packet", "packs": "packet",
	"c à soupe": "metric tablespoon", "c à café": "metric teaspoon", // French spoons, which begin like a cup
}

// nations are the words before a measure of volume that say whose it is.
var nations = [...]struct {
	word     string
	imperial bool
}{{"us", false}, {"american", false}, {"imp", true}, {"imperial", true}, {"uk", true}, {"british", true}}

// byWord finds a unit by its name, plural, symbol or spelling, as spellings has them.
var byWord = indexUnits()

// indexUnits returns the index of the table.
func indexUnits() map[string]*Unit {
	m := map[string]*Unit{}
	for _, u := range units {
		m[u.Name], m[u.Plural], m[strings.ToLower(u.Symbol)] = u, u, u
	}
	delete(m, "") // Each has no symbol
	for word, name := range spellings {
		m[word] = m[name]
	}
	named := map[string]*Unit{}
	for word, u := range m {
		if u.Dim != Volume || u.System != US || len(word) == 1 {
			continue
		}
		for _, n := range nations {
			if of, ok := m["imperial "+u.Name]; n.imperial && ok {
				named[n.word+" "+word] = of
			} else if !n.imperial {
				named[n.word+" "+word] = u
			}
		}
	}
	for word, u := range named {
		m[word] = u
	}
	return m
}

// headWords are the first words of the units that have more than one.
var headWords = indexHeads()

// indexHeads returns the first words of the index.
func indexHeads() map[string]bool {
	m := map[string]bool{}
	for word := range byWord {
		if head, _, ok := strings.Cut(word, " "); ok {
			m[head] = true
		}
	}
	return m
}

// LookupUnit returns the unit with a name, plural, symbol or common spelling, in upper or
// lower case, but for T, a tablespoon, and t, a teaspoon. Full stops ("tsp.", "fl. oz.")
// are ignored. ok is false for a word that names no unit.
func LookupUnit(word string) (*Unit, bool) {
	if u, ok := byWord[word]; ok {
		return u, true // as most are typed
	}
	if strings.IndexFunc(word, unusual) < 0 {
		return nil, false // as most words of names are
	}
	word = strings.Join(strings.Fields(strings.ReplaceAll(word, ".", "")), " ")
	if u, ok := byWord[word]; ok {
		return u, true
	}
	u, ok := byWord[strings.ToLower(word)]
	return u, ok
}

// unusual reports whether r can stand in a spelling that the index does not have as it is
// typed.
func unusual(r rune) bool { return (r < 'a' || r > 'z') && r != '-' }

// SuggestUnit returns the name or plural of the unit nearest to a mistyped word, or
// "" when none is near or the word is a unit.
func SuggestUnit(word string) string {
	if _, ok := LookupUnit(word); ok {
		return ""
	}
	word = strings.ToLower(word)
	best, bestAt := "", 3
	for _, u := range units {
		for _, known := range []string{u.Name, u.Plural} {
			if len(known) < 3 {
				continue
			}
			if d := Distance(word, known, 2); d < bestAt && d*3 <= len(known) {
				best, bestAt = known, d
			}
		}
	}
	return best
}

// Convert returns n of from in to, exactly. ok is false when a unit is nil, when
// they have different dimensions, and for two different counts.
func Convert(n Number, from, to *Unit) (out Number, ok bool) {
	switch {
	case from == nil || to == nil || from.Dim != to.Dim:
		return Number{}, false
	case from == to:
		return n, true
	case from.Dim == Count:
		return Number{}, false
	}
	return n.Mul(from.Factor).Quo(to.Factor), true
}

// MarshalText writes the unit's name.
func (u *Unit) MarshalText() ([]byte, error) { return []byte(u.Name), nil }
