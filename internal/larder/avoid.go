package larder

import (
	"slices"
	"strings"
)

// An Avoid is what a guest's words are understood as. A food that has any of it clashes.
type Avoid struct {
	Words      string     // without "no", "allergy" and the like: "tree nuts"
	Allergens  []Category // of the official lists
	Animals    []Animal   // classes of animals
	Heats      []Heat     // classes of raw food
	Foods      []string   // names of foods of the table, with what is made of them
	Unchecked  string     // what of the words no table tells: "how the animals were slaughtered", "" for nothing
	diet       bool       // it names a way of eating, which nothing can contain
	unread     bool       // its words are not understood
	codes      []string   // allergens, as the table has them
	mayCodes   []string   // allergens that may be what the guest avoids
	mayAnimals []Animal   // classes of animals that may be
	keys       []string   // of Foods, and the word as typed: "chilli" is in "green chilli"
}

// A Verdict is what a guest's words come to for one item. All false: nothing was found.
type Verdict struct {
	Sure    bool // it has it, always, usually or probably
	May     bool // it may have it: read the label, or ask
	Unknown bool // nobody has assessed the item
}

// NotUnderstood returns what words mean that are not understood: no item is assessed for
// a guest who says them.
func NotUnderstood(words string) Avoid { return Avoid{Words: words, unread: true} }

// Of returns whether an item as cooks type it has what the guest avoids, by the foods
// given: a kitchen's own, or nil for the built-in table alone.
func (a Avoid) Of(item string, fs *Foods) Verdict {
	if a.unread {
		return Verdict{Unknown: true}
	}
	var v Verdict
	m := fs.resolve(item)
	assessed, known := fs.Assess(item)
	for _, c := range assessed.Carries {
		switch meant := func(codes []string) bool {
			return slices.ContainsFunc(codes, func(code string) bool {
				names := official[code]
				return c.List == EU && names[0] == c.Code || c.List == US && names[1] == c.Code
			})
		}; {
		case meant(a.codes) && c.Certainty != May:
			v.Sure = true
		case meant(a.codes), meant(a.mayCodes):
			v.May = true
		}
	}
	v.Unknown = (!known || assessed.Open) && len(a.codes)+len(a.mayCodes) > 0
	if len(a.Animals)+len(a.mayAnimals)+len(a.Heats) > 0 {
		class, ok := fs.Classify(item)
		v.Unknown = v.Unknown || !ok && !(known && a.byAllergens())
		for _, animal := range class.Animals {
			v.Sure = v.Sure || slices.Contains(a.Animals, animal)
			v.May = v.May || slices.Contains(a.mayAnimals, animal)
		}
		for _, animal := range class.May {
			v.May = v.May || slices.Contains(a.Animals, animal) || slices.Contains(a.mayAnimals, animal)
		}
		v.May = v.May || slices.Contains(a.Heats, class.Heat)
		for _, f := range m.foods() {
			if h := f.Heat(); h == HeatOffal || h == HeatGame { // these are avoided cooked too
				v.Sure = v.Sure || slices.Contains(a.Heats, h) && slices.Contains(a.keys, string(h))
			}
		}
	}
	if len(a.keys) > 0 {
		of := a.ofFoods(item, m, fs)
		v.Sure, v.May, v.Unknown = v.Sure || of.Sure, v.May || of.May, v.Unknown || of.Unknown
	}
	v.Unknown = v.Unknown && !v.Sure
	return v
}

// byAllergens reports whether the allergens of a food tell all the classes of animals that
// a guest avoids: what has no milk in it has no dairy.
func (a Avoid) byAllergens() bool {
	for _, animal := range append(slices.Clone(a.Animals), a.mayAnimals...) {
		if !slices.ContainsFunc(a.codes, func(code string) bool { return carried[code] == animal }) {
			return false
		}
	}
	return len(a.Heats) == 0
}

// ofFoods returns whether an item has one of the foods that the guest avoids.
func (a Avoid) ofFoods(item string, m match, fs *Foods) Verdict {
	if m.denied { // "vegan mayonnaise": who knows what is in it
		return Verdict{Unknown: true}
	}
	v := Verdict{Unknown: m.food == nil && len(m.named) == 0 || m.vague()}
	text := " " + key(item) + " "
	for _, k := range a.keys {
		v.Sure = v.Sure || fs.says(m, text, k)
		for _, f := range m.foods() {
			may := f.mayBeMadeOf(k) || f.among(families[k].may)
			switch has := f.madeOf(k) || f.among(families[k].has); {
			case has && m.instead(text, f, k):
				v.May = true // "venison salami" may be without pork
			case has:
				v.Sure = true
			case may:
				v.May = true
			}
		}
	}
	for _, name := range a.Foods {
		avoided := fs.lookup(key(name))
		for _, f := range m.foods() {
			v.May = v.May || avoided != nil && (f.mayHold(avoided) || avoided.Category() && avoided.plant() && f.plant() && f.Section == avoided.Section)
			v.Sure = v.Sure || slices.Contains(wholeSections, name) && f.plant() && f.Section == avoided.Section && a.only(name)
		}
	}
	return v
}

// wholeSections are the foods that are words for all that is sold among the fruit, the
// vegetables and the herbs.
var wholeSections = []string{"fruit", "vegetable", "herb"}

// only reports whether the guest's word is a food's own name: berries are not all fruit.
func (a Avoid) only(name string) bool {
	return !slices.ContainsFunc(a.keys, func(k string) bool { return k != key(name) })
}

// says reports whether the words of an item name the food with a key, beside those that
// share a word with it and are another good: beef tomatoes are no beef, and cocoa butter is
// no butter.
func (fs *Foods) says(m match, text, k string) bool {
	for _, f := range m.foods() {
		other := m.same && f.plant() && fs.isAnimal(k) || f.among(families[k].may) || slices.Contains(unlike[k], f)
		if other && !f.madeOf(k) {
			for _, name := range append(f.SameAs(), f.Name) {
				text = strings.ReplaceAll(text, " "+key(name)+" ", " ")
			}
		}
	}
	return strings.Contains(text, " "+k+" ")
}

// isAnimal reports whether a key is of a food that comes from an animal.
func (fs *Foods) isAnimal(k string) bool {
	f := fs.lookup(k)
	return f != nil && f.Animals()[0] != NoAnimal
}

// instead reports whether another animal comes right before a food of an item, which
// otherwise is of the animal with a key: "lamb bacon" is not of pork.
func (m match) instead(text string, f *Food, k string) bool {
	if strings.Contains(text, " "+k+" ") {
		return false
	}
	for _, animal := range m.named {
		if animal == f || animal.madeOf(k) || animal.Animals()[0] != Meat && animal.Animals()[0] != Poultry {
			continue
		}
		for _, name := range append(f.SameAs(), f.Name) {
			if strings.Contains(text, " "+key(animal.Name)+" "+key(name)+" ") {
				return true
			}
		}
	}
	return false
}

// foods returns every food that the words of an item name.
func (m match) foods() []*Food {
	if m.food == nil || slices.Contains(m.named, m.food) {
		return m.named
	}
	return append([]*Food{m.food}, m.named...)
}

// Covers reports whether a guest who avoids a also avoids all that b names: "shellfish"
// covers "prawns", and "coeliac" covers "gluten".
func (a Avoid) Covers(b Avoid) bool {
	if a.unread || b.unread || b.Unchecked != "" && a.Unchecked != b.Unchecked {
		return false
	}
	return within(a.codes, b.codes) && within(a.Animals, b.Animals) && within(a.Heats, b.Heats) && within(a.Foods, b.Foods) &&
		within(union(a.codes, a.mayCodes), b.mayCodes) && within(union(a.Animals, a.mayAnimals), b.mayAnimals)
}

// within reports whether all has each of some.
func within[T comparable](all, some []T) bool {
	return !slices.ContainsFunc(some, func(x T) bool { return !slices.Contains(all, x) })
}

// Meets reports whether an official allergen, a class of animals or a food is among both.
func (a Avoid) Meets(b Avoid) bool {
	return shared(a.codes, b.codes) || shared(a.Foods, b.Foods) || shared(a.keys, b.keys) || shared(a.Animals, b.Animals)
}

// shared reports whether something is among both.
func shared[T comparable](some, others []T) bool {
	return slices.ContainsFunc(some, func(x T) bool { return slices.Contains(others, x) })
}

// Code reports whether an official allergen is among what a guest avoids.
func (a Avoid) Code(list List, name string) bool {
	return slices.ContainsFunc(a.codes, func(code string) bool {
		names := official[code]
		return list == EU && names[0] == name || list == US && names[1] == name
	})
}
