package larder

import (
	"slices"
	"strings"
)

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
	Food     string   // the food of the table by which it is known: "chicken thigh"
	Probably bool     // Food is broader than what was typed, or only part of its name
	May      []Animal // it may be of these too
}

// Classify returns the animal class and the heat class of an item as cooks type it:
// "6 bone-in thighs" is probably poultry, "oyster mushrooms" no animal at all. An item
// with a word for cooked, cured or tinned ("roast chicken") has no heat class. ok is
// false where no word of the item is known; then nothing is said of it.
func (fs *Foods) Classify(item string) (c Class, ok bool) {
	m := fs.resolve(item)
	if m.same {
		return m.food.class()
	}
	if m.food == nil && len(m.named) == 0 || m.denied {
		return Class{}, false
	}
	c.Heat, c.Probably = NoHeat, true
	unknown := false // nothing is known of one of its foods
	for _, f := range m.foods() {
		c.may(f)
	}
	for _, e := range m.named {
		of, known := e.class()
		unknown = unknown || !known
		c.Animals = append(c.Animals, of.Animals...)
		if c.Heat == NoHeat && (m.food == nil || m.food.plant() || e == m.cut) {
			c.Heat, c.Food = of.Heat, e.Name
		}
	}
	if m.food != nil {
		of, known := m.food.class()
		unknown = unknown || !known
		c.Animals = append(c.Animals, of.Animals...)
		if c.Heat == NoHeat {
			c.Heat, c.Food = of.Heat, m.food.Name
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
	return c, !unknown || len(c.Animals) > 0 && c.Animals[0] != NoAnimal
}

// may adds the classes of animals that a food only may be of.
func (c *Class) may(f *Food) {
	for _, a := range f.creatures(true) {
		if !slices.Contains(c.May, a) {
			c.May = append(c.May, a)
		}
	}
}

// Classify returns the classes of an item by the built-in table, as [Foods.Classify] does.
func Classify(item string) (c Class, ok bool) { return (*Foods)(nil).Classify(item) }

// class returns the classes of a food. ok is false where nothing is known of them.
func (f *Food) class() (c Class, ok bool) {
	if f.byWords() {
		return f.classify()
	}
	return Class{Animals: f.Animals(), Heat: f.Heat(), Food: f.Name, May: f.creatures(true)}, true
}

// Heat returns the heat class of a food.
func (f *Food) Heat() Heat {
	if h, ok := heats[f.value("h")]; ok {
		return h
	}
	return NoHeat
}

// carried maps the allergens of the table to the animals they are of.
var carried = map[string]Animal{"cr": Shellfish, "mo": Shellfish, "fi": Fish, "eg": Eggs, "mi": Dairy}

// Animals returns the animal classes of a food, NoAnimal alone where it has none. What
// it only may hold is left out.
func (f *Food) Animals() []Animal {
	out := f.creatures(false)
	if len(out) == 0 {
		out = []Animal{NoAnimal}
	}
	return out
}

// heads are the families of foods that are all of one class of animals: what may be made
// with one of them may be of that class. Allergens tell the other classes.
var heads = []struct {
	word   string
	animal Animal
}{{"beef", Meat}, {"pork", Meat}, {"lamb", Meat}, {"veal", Meat}, {"venison", Meat}, {"chicken", Poultry}, {"gelatine", Gelatine}, {"honey", Honey}}

// creatures returns the animal classes that a food has or, with may, those that it only
// may have.
func (f *Food) creatures(may bool) []Animal {
	var out []Animal
	for _, token := range f.list() {
		word, animal, _ := strings.Cut(token, "=")
		if (word == "m" && !may || word == "m?" && may) && Animal(animal) != NoAnimal {
			out = append(out, Animal(animal))
		}
	}
	for _, h := range heads {
		if may && !slices.Contains(out, h.animal) && (f.among(families[h.word].may) || f.mayBeMadeOf(h.word)) {
			out = append(out, h.animal)
		}
	}
	if may && f.has("rennet") {
		out = append(out, Meat) // of a calf's stomach, unless the label says otherwise
	}
	for _, c := range f.codes() {
		if a := carried[c.code]; a != "" && (c.certainty == May) == may && !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	return out
}

// plant reports whether a food is sold among the vegetables, fruit and herbs. A raw
// animal food that is named beside it still counts: "pork with apples".
func (f *Food) plant() bool {
	return f.Section == "vegetables" || f.Section == "fruit" || f.Section == "herbs"
}
