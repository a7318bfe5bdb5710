package dinner

import (
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/library"
	"hobside/internal/menu"
	"hobside/internal/plan"
)

// Check compiles files together and returns every problem, in order of their places:
// those of each file, of the files together, and of each menu's dinner, which are the
// same that an open dinner of the menu has ([Worked]) and its order list and plan print.
func Check(files []library.Source) []document.Problem {
	set, foods, problems := library.Gather(files)
	problems = append(problems, set.Check()...)
	return inOrder(append(problems, CheckMenus(set, foods)...))
}

// CheckMenus returns what the dinners of a set's menus show, each for the covers and in
// the kitchen that its menu names. Foods are the kitchen's own, nil for none.
func CheckMenus(set library.Set, foods *larder.Foods) []document.Problem {
	var out []document.Problem
	for _, name := range set.Names() {
		if m := set[name].Menu; m != nil {
			out = append(out, checkMenu(set, foods, m)...)
		}
	}
	return out
}

// checkMenu returns what the dinner of one menu shows.
func checkMenu(set library.Set, foods *larder.Foods, m *menu.Menu) []document.Problem {
	in := plan.Input{Dinner: demand.Input{Menu: m, Cards: map[string]*card.Card{}}, Kitchen: set.Kitchen(set.KitchenOf(m))}
	for _, f := range set {
		if f.Card != nil {
			in.Dinner.Cards[f.Card.ID] = f.Card
		}
	}
	var of exploded
	of.input, of.demand, of.problems = plan.Amounts(in, nil)
	return amountProblems(of, in.Kitchen, demand.Shop{Prices: set.Prices(in.Kitchen), Foods: foods})
}

// amountProblems returns the problems that the amounts of a dinner show.
func amountProblems(of exploded, k *kitchen.Kitchen, shop demand.Shop) []document.Problem {
	if of.demand == nil || of.input.Menu == nil {
		return of.problems
	}
	return append(append([]document.Problem{}, of.problems...), demand.Problems(of.input, of.demand, k, shop)...)
}
