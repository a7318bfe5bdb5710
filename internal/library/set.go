package library

import (
	"maps"
	"path"
	"slices"

	"hobside/internal/card"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
)

// A Set is files that belong together, by file name: a cook's library, or what
// one dinner has pinned.
type Set map[string]*File

// Names returns the file names, sorted.
func (s Set) Names() []string { return slices.Sorted(maps.Keys(s)) }

// Card returns the card of an ID, nil when the set has none.
func (s Set) Card(id string) *card.Card {
	if f := s[id+".md"]; f != nil {
		return f.Card
	}
	return nil
}

// Kitchen returns the kitchen of a file name, nil when the set has none.
func (s Set) Kitchen(name string) *kitchen.Kitchen {
	if f := s[name]; f != nil {
		return f.Kitchen
	}
	return nil
}

// KitchenOf returns the file name of the kitchen a menu is cooked in: the one
// it names, else the only one there is, else "".
func (s Set) KitchenOf(m *menu.Menu) string {
	if m.Kitchen != "" {
		return m.Kitchen + ".md"
	}
	return s.OnlyKitchen()
}

// OnlyKitchen returns the file name of the only kitchen of the set, "" where it has none
// or several.
func (s Set) OnlyKitchen() string {
	only := ""
	for _, name := range s.Names() {
		if s[name].Kitchen == nil {
			continue
		}
		if only != "" {
			return ""
		}
		only = name
	}
	return only
}

// Needs returns the names of the files that a dinner of a menu must pin: the
// menu, its kitchen, the kitchen's own foods, and every card that it needs directly or
// through other cards. They are sorted; files that the set does not have are left out. For a
// card or a kitchen it returns that file alone.
func (s Set) Needs(f *File) []string {
	if f.Menu == nil {
		return []string{path.Base(f.Name)}
	}
	needed := map[string]bool{path.Base(f.Name): true}
	cards := map[string]*card.Card{}
	for _, other := range s {
		if other.Card != nil {
			cards[other.Card.ID] = other.Card
		}
	}
	for _, c := range cardsOf(f.Menu, cards) {
		needed[c.ID+".md"] = true
	}
	if name := s.KitchenOf(f.Menu); s[name] != nil {
		needed[name] = true
	}
	for name, other := range s {
		if other.Foods != nil {
			needed[name] = true
		}
	}
	return slices.Sorted(maps.Keys(needed))
}
