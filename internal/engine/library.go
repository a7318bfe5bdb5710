package engine

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/menu"
)

// compile reads one file as what it is.
func compile(name string, text []byte) *document {
	d := &document{name: name}
	switch menu.KindOf(text) {
	case menu.KindMenu:
		d.menu, d.problems = menu.ParseMenu(name, text)
	case menu.KindKitchen:
		d.kitchen, d.problems = menu.ParseKitchen(name, text)
	default:
		d.card, d.problems = card.Parse(name, text)
	}
	return d
}

func (d *document) id() string { return strings.TrimSuffix(d.name, ".md") }

// title is the file's heading, or its ID where it has none.
func (d *document) title() string {
	t := ""
	switch {
	case d.card != nil:
		t = d.card.Title
	case d.menu != nil:
		t = d.menu.Title
	default:
		t = d.kitchen.Title
	}
	if t == "" {
		return d.id()
	}
	return t
}

// load replaces the library and looks at all its files together.
func (e *Engine) load(in LoadCall) (*LibraryView, error) {
	e.library = make(map[string]*document, len(in.Files))
	for _, f := range in.Files {
		e.library[f.Name] = compile(f.Name, []byte(f.Text))
	}
	e.shelf = stack(e.library)
	return e.view(), nil
}

func (e *Engine) view() *LibraryView {
	v := &LibraryView{Files: []LibraryFile{}, Problems: []card.Problem{}}
	names := sortedNames(e.library)
	for _, name := range names {
		v.Problems = append(v.Problems, e.library[name].problems...)
	}
	v.Problems = append(append(v.Problems, links(e.library)...), gaps(e.library)...)
	count := map[string][2]int{}
	for _, f := range v.Problems {
		n := count[f.File]
		if f.Severity == card.Error {
			n[0]++
		} else {
			n[1]++
		}
		count[f.File] = n
	}
	for _, name := range names {
		d := e.library[name]
		f := LibraryFile{Name: name, ID: d.id(), Errors: count[name][0], Warnings: count[name][1], Needs: []string{name}, Guests: []GuestGroup{}}
		switch {
		case d.card != nil:
			f.Kind, f.Plate = "card", d.card.IsPlate()
			f.Makes = e.amount(d.card.Makes)
		case d.menu != nil:
			f.Kind, f.Covers = "menu", d.menu.Covers
			f.Serve, f.Guests = wall(d.menu.Serve), guestGroups(d.menu.Guests)
			f.Kitchen = kitchenOf(d.menu, e.library)
			f.Needs = needs(d, e.library)
		default:
			f.Kind = "kitchen"
		}
		f.Title = d.title()
		v.Files = append(v.Files, f)
	}
	return v
}

// links looks at a set of files together: what each alone can't show.
func links(docs map[string]*document) []card.Problem {
	var all menu.Library
	for _, name := range sortedNames(docs) {
		d := docs[name]
		switch {
		case d.card != nil:
			all.Cards = append(all.Cards, d.card)
		case d.menu != nil:
			all.Menus = append(all.Menus, d.menu)
		default:
			all.Kitchens = append(all.Kitchens, d.kitchen)
		}
	}
	return menu.CheckLinks(all)
}

// kitchenOf names the file of the kitchen a menu is cooked in: the one it
// links to, else the only one there is, else "".
func kitchenOf(m *menu.Menu, docs map[string]*document) string {
	if m.Kitchen != "" {
		return m.Kitchen + ".md"
	}
	only := ""
	for _, name := range sortedNames(docs) {
		if docs[name].kitchen == nil {
			continue
		}
		if only != "" {
			return ""
		}
		only = name
	}
	return only
}

// needs lists the files a dinner of a menu must pin: the menu, its kitchen,
// and every card down to the last stock.
func needs(d *document, docs map[string]*document) []string {
	seen := map[string]bool{d.name: true}
	var visit func(id string)
	visit = func(id string) {
		name := id + ".md"
		c, ok := docs[name]
		if !ok || seen[name] {
			return
		}
		seen[name] = true
		if c.card == nil {
			return
		}
		for _, it := range c.card.Items {
			if it.Card != "" {
				visit(it.Card)
			}
		}
	}
	for _, course := range d.menu.Courses {
		for _, p := range course.Plates {
			visit(p.Card)
		}
	}
	if k := kitchenOf(d.menu, docs); k != "" && docs[k] != nil {
		seen[k] = true
	}
	names := make([]string, 0, len(seen))
	for name := range seen {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

func sortedNames(docs map[string]*document) []string {
	names := make([]string, 0, len(docs))
	for name := range docs {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}
