package dinner

import (
	"maps"
	"path"
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/library"
	"hobside/internal/menu"
	"hobside/internal/plan"
)

// Check checks named files, together with others that belong with them. It returns the
// problems of the named files and of those that the named menus need, in order of their
// places, and the names of these files. The problems are those of each file, of the files
// together, and of each menu's dinner, which are the same that an open dinner of the menu
// has ([Worked]) and its order list and plan print.
func Check(named, others []library.Source) (problems []document.Problem, of []string) {
	set, foods, all := library.Gather(append(slices.Clone(named), others...))
	all = append(all, set.Check()...)
	wanted, needed, onlyMenus := map[string]bool{}, map[string]bool{}, true
	for _, src := range named {
		wanted[src.Name] = true
		f := set[path.Base(src.Name)]
		if f == nil || f.Name != src.Name {
			continue
		}
		if f.Menu == nil {
			onlyMenus = false
			continue
		}
		for _, name := range set.Needs(f) {
			if other := set[name]; other != nil && other != f {
				wanted[other.Name], needed[name] = true, true
			}
		}
	}
	for _, name := range set.Names() {
		if m := set[name].Menu; m != nil && (!onlyMenus || wanted[m.File]) {
			all = append(all, checkMenu(set, foods, m)...)
		}
	}
	problems = []document.Problem{}
	for _, p := range all {
		if wanted[p.File] || needed[path.Base(p.File)] {
			problems = append(problems, p)
		}
	}
	return inOrder(problems), slices.Sorted(maps.Keys(wanted))
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

// CheckFile returns the problems of one file that only its neighbours in the set and the
// dinners that need it show. The file replaces the set's own of that name.
func CheckFile(set library.Set, foods *larder.Foods, f *library.File) []document.Problem {
	out := set.CheckFile(f)
	with := maps.Clone(set)
	with[f.Name] = f
	for _, name := range with.Names() {
		m := with[name]
		if m.Menu == nil || !slices.Contains(with.Needs(m), f.Name) {
			continue
		}
		for _, p := range checkMenu(with, foods, m.Menu) {
			if p.File == f.Name && !slices.Contains(out, p) {
				out = append(out, p)
			}
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
