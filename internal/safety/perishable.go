package safety

import (
	"slices"

	"hobside/internal/larder"
)

// Words by which an item that comes from an animal keeps at room temperature all the
// same, and words by which cooked food is known: our own compilation.
const (
	keepsAtRoom  = "butter, ghee, dripping, lard, suet, fat, honey, gelatine, chocolate, powder, dried, salami, parmesan, hard cheese, anchovy, fish sauce, oyster sauce, worcestershire sauce"
	cookedPlants = "rice, beans, lentils, chickpeas, peas, barley, pasta, noodles, potatoes, vegetables"
	cookedWords  = "cooked, roast, roasted, boiled, braised, poached, steamed, stewed, confit, leftover"
)

// Perishable reports whether an item must not stand at room temperature between two
// steps: raw and cooked animal food, milk and cream, stock, cooked rice. Our own working
// rule; what food codes call food that needs time and temperature control.
func Perishable(item string) bool {
	t := tokens(item)
	class := ClassOf(item)
	switch {
	case hasAny(t, keepsAtRoom):
		return false
	case class.raw() || class == Stock || class == Bones:
		return true
	}
	food, _ := larder.Classify(item)
	if milk, known := larder.Assess(item); slices.Contains(food.Animals, larder.Dairy) || known && milk.Certainty(larder.EU, "milk") == larder.Always {
		return true
	}
	if !hasAny(t, cookedWords) {
		return false
	}
	return hasAny(t, cookedPlants) || len(food.Animals) > 0 && food.Animals[0] != larder.NoAnimal
}

// PerishableCooked reports whether an item is perishable once it has been cooked in
// liquid, though it keeps at room temperature before: rice, pulses, vegetables.
func PerishableCooked(item string) bool {
	if ClassOf(item) == Rice {
		return true
	}
	f, ok := larder.Find(item)
	return ok && f.Section == "vegetables" || hasAny(tokens(item), cookedPlants)
}
