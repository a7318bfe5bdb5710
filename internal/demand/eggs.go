package demand

import (
	"slices"

	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// eggs moves yolks and whites to the line of eggs: they are not sold separately,
// and one egg gives its yolk to one card and its white to another. Bought are the
// whole eggs plus the larger of yolks and whites.
func eggs(lines map[string]*line, slugs []string, foods *larder.Foods) []string {
	yolks, whites := lines["egg-yolk"], lines["egg-white"]
	if yolks == nil && whites == nil {
		return slugs
	}
	whole := lines["egg"]
	if whole == nil {
		food, _ := foods.Find("egg")
		whole = &line{food: food.Name, foodSlug: food.Slug(), own: larder.Own{Foods: foods}, Line: Line{Section: food.Section, Slug: food.Slug(), Name: food.Name}}
		lines["egg"] = whole
		slugs = append(slugs, "egg")
	}
	count := func(name string, l *line) (n quantity.Number, ok bool) {
		if l == nil {
			return n, true
		}
		for _, a := range l.buy {
			one, basis, err := larder.Convert(name, a.Qty, a.Unit, quantity.Each, l.own)
			if err != nil {
				return n, false
			}
			whole.note(basis)
			n = n.Add(one)
		}
		return n, true
	}
	y, ok1 := count("egg yolk", yolks)
	w, ok2 := count("egg white", whites)
	e, ok3 := count("egg", whole)
	if !ok1 || !ok2 || !ok3 {
		return slugs // each stays on its own line, as typed
	}
	most := y
	if w.Cmp(y) > 0 {
		most = w
	}
	for _, part := range []*line{yolks, whites} {
		if part == nil {
			continue
		}
		whole.Wants = append(whole.Wants, part.Wants...)
		whole.Need = append(whole.Need, part.Need...)
		slugs = slices.DeleteFunc(slugs, func(s string) bool { return s == part.Slug })
	}
	whole.buy = []quantity.Amount{{Qty: e.Add(most), Unit: quantity.Each}}
	for _, n := range []struct {
		n    quantity.Number
		what string
	}{{y, "yolks"}, {w, "whites"}} {
		if n.n.Sign() > 0 {
			whole.note(n.n.Ceil().String() + " for their " + n.what)
		}
	}
	return slugs
}
