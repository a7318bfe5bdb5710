package demand

import (
	"slices"
	"strconv"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/larder"
	"hobside/internal/safety"
)

// Problems returns what only the amounts of a dinner show, beside the problems of
// [Explode]: guests who would get what they can't have, and prices that are for nothing.
// k is the dinner's kitchen, nil for none.
func Problems(in Input, d *Demand, k *kitchen.Kitchen, shop Shop) []document.Problem {
	out := append(clashProblems(in, d), vesselProblems(in, d, k)...)
	if k != nil {
		out = append(out, shelfProblems(in, d, k)...)
		out = append(out, dateProblems(d, safety.Rules(k.Rules))...)
	}
	return append(out, priceProblems(d, shop)...)
}

// dateProblems returns a warning for each component whose label would have no date: the
// kitchen's rules set no count of days, and its card does not say how long it keeps.
func dateProblems(d *Demand, rules safety.Rules) []document.Problem {
	var out []document.Problem
	if u, err := safety.UseBy(rules, 0); rules == "" || err != nil || u.Days > 0 {
		return nil
	}
	for _, comp := range d.Components {
		c := comp.Card
		says := len(c.Keeps) > 0 || slices.ContainsFunc(c.Steps, func(s card.Step) bool { return len(s.Keep) > 0 || s.Serve })
		if c.IsPlate() || says {
			continue
		}
		out = append(out, document.Problem{File: c.File, Line: 1, Col: 1, Severity: document.Warning,
			Msg: `the label of "` + c.Title + `" has no date: the rules here set no count of days, and the card does not say how long it keeps`,
			Do:  `add "keeps: 2 d chilled", or what it is, between the "---" lines at the top`})
	}
	return out
}

// clashProblems returns a problem for each clash, at the plate's line in the menu: an
// error where the plate surely has it, a warning where nobody has assessed an item.
func clashProblems(in Input, d *Demand) []document.Problem {
	var out []document.Problem
	for _, c := range Clashes(in, d) {
		if c.NotChecked {
			continue // an error of the menu already
		}
		g, p := in.Menu.Guests[c.Group-1], in.Menu.Courses[c.Course-1].Plates[c.Line-1]
		who := strconv.Itoa(g.Covers) + " cover"
		if g.Covers != 1 {
			who += "s"
		}
		var words []string
		for _, word := range g.Exclude {
			words = append(words, larder.Excluding(word))
		}
		who += ": " + strings.Join(words, ", ")
		problem := document.Problem{File: in.Menu.File, Line: p.Pos.Line, Col: p.Pos.Col, Severity: document.Error,
			Msg: "guests (" + who + `) get "` + c.Plate + `", which has what they can't have: ` + strings.Join(c.Via, " → "),
			Do:  `add a plate of their own below it, "for ` + larder.Excluding(c.Word) + `", or take the item out`}
		if !c.Sure {
			problem.Severity = document.Warning
			problem.Msg = "guests (" + who + `) get "` + c.Plate + `", and nobody has assessed ` + strings.Join(c.Via, " → ")
			if c.May {
				problem.Msg = "guests (" + who + `) get "` + c.Plate + `", which may have what they can't have: ` + strings.Join(c.Via, " → ")
			}
			problem.Do = `read its label, then say it on the card: "without: ` + c.Word + `" or "contains: ` + c.Word + `"`
		}
		out = append(out, problem)
	}
	return out
}

// priceProblems returns a warning for each price that no line of the order list can use:
// its item is neither in the food table nor on the list, or what it buys is in a unit that
// the line's amount can't be brought to.
func priceProblems(d *Demand, shop Shop) []document.Problem {
	if len(shop.Prices) == 0 {
		return nil
	}
	lines := Order(d, shop)
	bySlug := make(map[string]*Line, len(lines))
	var names []string
	for i := range lines {
		bySlug[lines[i].Slug] = &lines[i]
		names = append(names, strings.ToLower(lines[i].Name))
	}
	var out []document.Problem
	for _, p := range shop.Prices {
		problem := document.Problem{File: p.File, Line: p.Pos.Line, Col: p.Pos.Col, Severity: document.Warning}
		l := bySlug[p.Slug(shop.Foods)]
		_, known := shop.Foods.Find(p.Item)
		switch {
		case l == nil && !known:
			problem.Msg, problem.Hint = `nothing is called "`+p.Item+`": its price is for nothing`, document.Nearest(strings.ToLower(p.Item), names)
			problem.Do = "write it as a card names it"
			out = append(out, problem)
		case l != nil && !l.Priced:
			if _, why, ok := strings.Cut(l.Note, "no cost: "); ok {
				problem.Msg = `the price of "` + p.Item + `" can't be used: ` + why
				problem.Do = "give the price by what the order list buys it by"
				out = append(out, problem)
			}
		}
	}
	return out
}
