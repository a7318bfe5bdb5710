package menu

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
)

// A Library is a set of files that belong together. Names within it are unique.
type Library struct {
	Cards    []*card.Card
	Menus    []*Menu
	Kitchens []*Kitchen
}

// CheckLinks looks at the files together and finds what each alone can't show:
// links to cards that are not there, by-products nobody saves, and loops.
func CheckLinks(all Library) []document.Problem {
	c := checker{cards: make(map[string]*card.Card, len(all.Cards))}
	for _, x := range all.Cards {
		c.cards[x.ID] = x
		c.ids = append(c.ids, x.ID)
	}
	for _, x := range all.Cards {
		c.items(x)
	}
	c.loops(all.Cards)
	for _, m := range all.Menus {
		c.menu(m, all.Kitchens)
	}
	return c.problems
}

type checker struct {
	cards    map[string]*card.Card
	ids      []string
	problems []document.Problem
}

func (c *checker) add(file string, at document.Pos, sev document.Severity, msg, hint, do string) {
	c.problems = append(c.problems, document.Problem{File: file, Line: at.Line, Col: at.Col, Severity: sev, Msg: msg, Hint: hint, Do: do})
}

// items checks that what a card links to is there.
func (c *checker) items(x *card.Card) {
	for _, it := range x.Items {
		if it.Card == "" {
			continue
		}
		to := c.cards[it.Card]
		if to == nil {
			c.missing(x.File, it.Pos, it.Card)
			continue
		}
		if it.Save == "" {
			continue
		}
		var slugs []string
		for _, s := range to.Saves {
			slugs = append(slugs, s.Slug)
		}
		if !slices.Contains(slugs, it.Save) {
			do := `add it under "## Saves" in ` + it.Card + ".md"
			c.add(x.File, it.Pos, document.Error, `"`+to.Title+`" saves no `+strings.ReplaceAll(it.Save, "-", " "), document.Nearest(it.Save, slugs), do)
		}
	}
}

func (c *checker) missing(file string, at document.Pos, id string) {
	hint := document.Nearest(id, c.ids)
	if hint != "" {
		hint += ".md"
	}
	c.add(file, at, document.Error, "there is no card "+id+".md", hint, "write that card, or correct the link")
}

// loops finds cards that need themselves. Each loop is told once, at the link
// that closes it.
func (c *checker) loops(cards []*card.Card) {
	const (
		unseen = iota
		open
		done
	)
	state := map[string]int{}
	var path []string
	var visit func(x *card.Card)
	visit = func(x *card.Card) {
		state[x.ID] = open
		path = append(path, x.ID)
		for _, it := range x.Items {
			to := c.cards[it.Card]
			if it.Card == "" || to == nil {
				continue
			}
			switch state[to.ID] {
			case open:
				loop := append(slices.Clone(path[slices.Index(path, to.ID):]), to.ID)
				c.add(x.File, it.Pos, document.Error, "these cards need each other in a loop: "+strings.Join(loop, " → "), "", "take one of the links out")
			case unseen:
				visit(to)
			}
		}
		path = path[:len(path)-1]
		state[x.ID] = done
	}
	for _, x := range cards {
		if state[x.ID] == unseen {
			visit(x)
		}
	}
}

func (c *checker) menu(m *Menu, kitchens []*Kitchen) {
	for _, course := range m.Courses {
		for _, p := range course.Plates {
			to := c.cards[p.Card]
			if to == nil {
				c.missing(m.File, p.Pos, p.Card)
			}
		}
	}
	if m.Kitchen == "" {
		return
	}
	var ids []string
	for _, k := range kitchens {
		if k.ID == m.Kitchen {
			c.equipped(m, k)
			return
		}
		ids = append(ids, k.ID)
	}
	hint := document.Nearest(m.Kitchen, ids)
	if hint != "" {
		hint += ".md"
	}
	c.add(m.File, document.Pos{Line: 1, Col: 1}, document.Error, "there is no kitchen "+m.Kitchen+".md", hint, "write that file, or correct the kitchen line")
}

// equipped finds the steps of a menu's cards that want what its kitchen does
// not have.
func (c *checker) equipped(m *Menu, k *Kitchen) {
	has := map[string]bool{}
	for _, e := range k.Equipment {
		has[e.Name] = true
	}
	if len(has) == 0 {
		return // told already
	}
	for _, x := range Reach(m, c.cards) {
		told := map[string]bool{}
		for _, s := range x.Steps {
			for _, e := range s.Equipment {
				if !has[e.Name] && !told[e.Name] {
					told[e.Name] = true
					c.add(x.File, s.Pos, document.Warning, `the kitchen has no "`+e.Name+`"`, "", "add it to "+k.File+", or do the step another way")
				}
			}
		}
	}
}

// Reach lists the cards a menu needs, down to the last stock, each once:
// plates in menu order, every card before those it uses.
func Reach(m *Menu, cards map[string]*card.Card) []*card.Card {
	seen := map[string]bool{}
	var out []*card.Card
	var visit func(id string)
	visit = func(id string) {
		x := cards[id]
		if x == nil || seen[id] {
			return
		}
		seen[id] = true
		out = append(out, x)
		for _, it := range x.Items {
			if it.Card != "" {
				visit(it.Card)
			}
		}
	}
	for _, course := range m.Courses {
		for _, p := range course.Plates {
			visit(p.Card)
		}
	}
	return out
}
