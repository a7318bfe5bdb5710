package document

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

// FindEquipment finds a word of the standard list, also in the plural and under
// another name cooks have for it ("ovens", "stove", "deep fryer").
func FindEquipment(word string) (Standard, bool) {
	if e, ok := findEquipment(word); ok {
		return e, true
	}
	return findEquipment(strings.TrimSuffix(word, "s"))
}

func findEquipment(word string) (Standard, bool) {
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

// HoldsFood returns how some equipment keeps food that is put into it: "chilled", "frozen" or
// "hot"; "" for what holds none.
func HoldsFood(name string) string {
	switch name {
	case "fridge", "blast chiller":
		return "chilled"
	case "freezer":
		return "frozen"
	case "hot cupboard", "bain-marie", "oven", "water bath", "steamer":
		return "hot"
	}
	return ""
}
