package card

import (
	"slices"
	"strings"
)

// Standard is one line of the list of equipment every card may use.
type Standard struct {
	Name  string
	Place string // what a place of it is called, "ring", "shelf"; "" when it has one
	Heat  bool   // over heat: never left alone
	Temp  bool   // has one temperature at a time
}

// standard is the list. What runs cold or gently by a thermostat (a water bath,
// a dehydrator) is commonly left alone and is not over heat here; common
// practice, no source.
var standard = [...]Standard{
	{"hob", "ring", true, false},
	{"oven", "shelf", true, true},
	{"fryer", "", true, true},
	{"grill", "", true, false},
	{"griddle", "", true, false},
	{"barbecue", "", true, false},
	{"smoker", "", true, false},
	{"steamer", "", true, false},
	{"pressure cooker", "", true, false},
	{"microwave", "", true, false},
	{"torch", "", true, false},
	{"hot cupboard", "shelf", true, true},
	{"bain-marie", "", true, false},
	{"water bath", "", false, true},
	{"dehydrator", "shelf", false, true},
	{"prover", "shelf", false, true},
	{"fridge", "shelf", false, false},
	{"freezer", "shelf", false, false},
	{"blast chiller", "shelf", false, false},
	{"ice bath", "", false, false},
	{"blender", "", false, false},
	{"stick blender", "", false, false},
	{"food processor", "", false, false},
	{"mixer", "", false, false},
	{"ice machine", "", false, false},
	{"siphon", "", false, false},
	{"vacuum sealer", "", false, false},
	{"slicer", "", false, false},
	{"mandoline", "", false, false},
	{"pasta roller", "", false, false},
	{"mill", "", false, false},
	{"press", "", false, false},
	{"sink", "", false, false},
}

// StandardEquipment returns the list every card and kitchen may use.
func StandardEquipment() []Standard { return slices.Clone(standard[:]) }

// FindEquipment finds a word of the standard list, also under another name
// cooks have for it ("stove", "deep fryer").
func FindEquipment(word string) (Standard, bool) {
	switch word {
	case "stove", "burner", "stovetop":
		word = "hob"
	case "deep fryer", "deep-fryer":
		word = "fryer"
	case "refrigerator":
		word = "fridge"
	case "broiler", "salamander":
		word = "grill"
	case "stand mixer":
		word = "mixer"
	case "hand blender", "immersion blender":
		word = "stick blender"
	case "bain marie":
		word = "bain-marie"
	}
	for i := range standard {
		if standard[i].Name == word {
			return standard[i], true
		}
	}
	return Standard{}, false
}

// equipment reads what follows the name: places, a temperature, words.
func (d *Doc) equipment(name string, f Fact) Equipment {
	e := Equipment{Name: name, Count: 1, Words: f.Value}
	d.Split(f, func(part string, at int) {
		if c, ok := readTemp(part); ok {
			if !sane(c) {
				d.Err(at, name+": "+part+" is no temperature of a kitchen", "", "check the figure and its unit")
				return
			}
			e.TempC, e.HasTemp = c, true
			return
		}
		if n, ok := places(part); ok {
			if n < 1 || n > 99 {
				d.Err(at, name+`: "`+part+`" is no number of places`, "", "write how many it takes up, 1 or more")
				return
			}
			e.Count = n
		}
	})
	return e
}

// places reads "2 shelves", "1 ring" or a bare number.
func places(s string) (n int, ok bool) {
	i := 0
	for i < len(s) && digit(s[i]) && i < 6 {
		n = n*10 + int(s[i]-'0')
		i++
	}
	if i == 0 {
		return 0, false
	}
	switch strings.ToLower(strings.TrimSpace(s[i:])) {
	case "", "ring", "rings", "burner", "burners", "pan", "pans", "pot", "pots", "shelf", "shelves", "tray", "trays",
		"rack", "racks", "place", "places", "basket", "baskets":
		return n, true
	}
	return 0, false
}
