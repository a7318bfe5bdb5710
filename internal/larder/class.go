package larder

import "slices"

// Animal is the class of animal that a food comes from. Guests' diets are read by it.
type Animal string

// The animal classes. NoAnimal is for plants, minerals and what is made of them alone.
const (
	NoAnimal  Animal = "none"
	Meat      Animal = "meat"
	Poultry   Animal = "poultry"
	Fish      Animal = "fish"
	Shellfish Animal = "shellfish" // crustaceans and molluscs
	Dairy     Animal = "dairy"
	Eggs      Animal = "egg"
	Honey     Animal = "honey"
	Gelatine  Animal = "gelatine"
)

// Heat is the class of risk that decides to what temperature a raw food is cooked.
type Heat string

// The heat classes. NoHeat is for what is not a raw animal food, and for bones and
// shells that are boiled for stock and not eaten.
const (
	NoHeat        Heat = "none"
	HeatPoultry   Heat = "poultry"
	HeatCut       Heat = "whole cut" // of beef, veal, pork, lamb or goat, on the bone or off it
	HeatMince     Heat = "mince"     // minced meat or fish, sausages, burgers
	HeatGame      Heat = "game"      // venison, rabbit, wild boar and game birds
	HeatFish      Heat = "fish"
	HeatShellfish Heat = "shellfish"
	HeatEgg       Heat = "egg"
	HeatOffal     Heat = "offal"
)

// heats maps the table's words to the classes.
var heats = map[string]Heat{"none": NoHeat, "poultry": HeatPoultry, "cut": HeatCut, "mince": HeatMince, "game": HeatGame,
	"fish": HeatFish, "shellfish": HeatShellfish, "egg": HeatEgg, "offal": HeatOffal}

// A Class is what a food is as an animal food.
type Class struct {
	Animals  []Animal // never empty: NoAnimal stands alone
	Heat     Heat
	Food     string // the food of the table by which it is known: "chicken thigh"
	Probably bool   // Food is broader than what was typed, or only part of its name
}

// Classify returns the animal class and the heat class of an item as cooks type it:
// "6 bone-in thighs" is probably poultry, "oyster mushrooms" no animal at all. An item
// with a word for cooked, cured or tinned ("roast chicken") has no heat class. ok is
// false where no word of the item is known; then nothing is said of it.
func Classify(item string) (c Class, ok bool) {
	m := resolve(item)
	if m.same {
		return Class{Animals: m.food.animals(), Heat: m.food.heat, Food: m.food.name}, true
	}
	if m.food == nil && len(m.named) == 0 || m.denied {
		return Class{}, false
	}
	c.Heat, c.Probably = NoHeat, true
	for _, e := range m.named {
		c.Animals = append(c.Animals, e.animals()...)
		if c.Heat == NoHeat && (m.food == nil || m.food.plant()) {
			c.Heat, c.Food = e.heat, e.name
		}
	}
	if m.food != nil {
		c.Animals = append(c.Animals, m.food.animals()...)
		if c.Heat == NoHeat {
			c.Heat, c.Food = m.food.heat, m.food.name
		}
	}
	if m.changed {
		c.Heat = NoHeat
	}
	slices.Sort(c.Animals)
	c.Animals = slices.Compact(c.Animals)
	if len(c.Animals) > 1 {
		c.Animals = slices.DeleteFunc(c.Animals, func(a Animal) bool { return a == NoAnimal })
	}
	return c, true
}

// plant reports whether a food is sold among the vegetables, fruit and herbs. A raw
// animal food that is named beside it still counts: "pork with apples".
func (e *entry) plant() bool {
	return e.section == "vegetables" || e.section == "fruit" || e.section == "herbs"
}
