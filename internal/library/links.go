package library

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
)

// links returns the problems between files: links to missing files, links to
// by-products that no card sets aside, cards that need each other in a loop, and
// steps that need equipment the kitchen does not have.
func (s Set) links() []document.Problem {
	c := newLinkChecker(s)
	for _, x := range c.cards {
		c.items(x)
	}
	c.loops()
	c.orders()
	for _, m := range c.menus {
		c.menu(m)
	}
	return c.problems
}

// A linkChecker holds the files of a set by kind, in the order of their names.
type linkChecker struct {
	cards    []*card.Card
	menus    []*menu.Menu
	kitchens []*kitchen.Kitchen
	byID     map[string]*card.Card
	ids      []string // of the cards
	problems []document.Problem
}

func newLinkChecker(s Set) *linkChecker {
	c := &linkChecker{byID: make(map[string]*card.Card, len(s))}
	for _, name := range s.Names() {
		switch f := s[name]; {
		case f.Card != nil:
			c.cards = append(c.cards, f.Card)
			c.ids = append(c.ids, f.Card.ID)
			c.byID[f.Card.ID] = f.Card
		case f.Menu != nil:
			c.menus = append(c.menus, f.Menu)
		case f.Kitchen != nil:
			c.kitchens = append(c.kitchens, f.Kitchen)
		}
	}
	return c
}

func (c *linkChecker) add(file string, at document.Pos, sev document.Severity, msg, hint, do string) {
	c.problems = append(c.problems, document.Problem{File: file, Line: at.Line, Col: at.Col, Severity: sev, Msg: msg, Hint: hint, Do: do})
}

// missing adds the problem of a link to a card that is not there.
func (c *linkChecker) missing(file string, at document.Pos, id string) {
	c.add(file, at, document.Error, "there is no card "+id+".md", nearestFile(id, c.ids), "write that card, or correct the link")
}

// nearestFile returns the file name that the author most likely meant by an ID,
// "" when none is near.
func nearestFile(id string, ids []string) string {
	if near := document.Nearest(id, ids); near != "" {
		return near + ".md"
	}
	return ""
}

// items checks that what a card's items link to is there.
func (c *linkChecker) items(x *card.Card) {
	for _, it := range x.Items {
		if it.Card == "" {
			continue
		}
		to := c.byID[it.Card]
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

// loops adds a problem for each loop of cards that need each other, at the link
// that closes the loop.
func (c *linkChecker) loops() {
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
			to := c.byID[it.Card]
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
	for _, x := range c.cards {
		if state[x.ID] == unseen {
			visit(x)
		}
	}
}

// menu checks that a menu's plates and its kitchen are there.
func (c *linkChecker) menu(m *menu.Menu) {
	for _, course := range m.Courses {
		for _, p := range course.Plates {
			if c.byID[p.Card] == nil {
				c.missing(m.File, p.Pos, p.Card)
			}
		}
	}
	if m.Kitchen == "" {
		return
	}
	var ids []string
	for _, k := range c.kitchens {
		if k.ID == m.Kitchen {
			c.equipped(m, k)
			return
		}
		ids = append(ids, k.ID)
	}
	c.add(m.File, document.Pos{Line: 1, Col: 1}, document.Error, "there is no kitchen "+m.Kitchen+".md", nearestFile(m.Kitchen, ids), "write that file, or correct the kitchen line")
}

// equipped adds a warning for each card of a menu that needs equipment its
// kitchen does not have.
func (c *linkChecker) equipped(m *menu.Menu, k *kitchen.Kitchen) {
	has := map[string]bool{}
	for _, e := range k.Equipment {
		has[e.Name] = true
	}
	if len(has) == 0 {
		return // the kitchen has a problem of its own that says so
	}
	for _, x := range cardsOf(m, c.byID) {
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

// cardsOf returns the cards that a menu needs, directly or through other cards,
// each once: in the order of the plates, each card before those it uses.
func cardsOf(m *menu.Menu, cards map[string]*card.Card) []*card.Card {
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
