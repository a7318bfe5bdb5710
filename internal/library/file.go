package library

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/kitchen"
	"hobside/internal/menu"
)

// A File is one compiled file. Exactly one of Card, Menu, Kitchen and Foods is set.
type File struct {
	Name     string // with ".md"
	Card     *card.Card
	Menu     *menu.Menu
	Kitchen  *kitchen.Kitchen
	Foods    *kitchen.Foods
	Problems []document.Problem // of the file alone

	text  string
	rules string // of the kitchen by which it was read, see [Cache.Stock]
}

// Compile reads a text as what it is: a menu, a kitchen, a kitchen's own foods, or else
// a card. The file is never nil and holds what could be read.
func Compile(name, text string) *File {
	f := &File{Name: name, text: text}
	src := []byte(text)
	switch KindOf(src) {
	case KindMenu:
		f.Menu, f.Problems = menu.Parse(name, src)
	case KindKitchen:
		f.Kitchen, f.Problems = kitchen.Parse(name, src)
	case KindFoods:
		f.Foods, f.Problems = kitchen.ParseFoods(name, src)
	default:
		f.Card, f.Problems = card.Parse(name, src)
	}
	return f
}

// ID is the file's name without ".md".
func (f *File) ID() string { return strings.TrimSuffix(f.Name, ".md") }

// Title is the file's heading, or its ID where it has none.
func (f *File) Title() string {
	title := ""
	switch {
	case f.Card != nil:
		title = f.Card.Title
	case f.Menu != nil:
		title = f.Menu.Title
	case f.Foods != nil:
		title = f.Foods.Title
	default:
		title = f.Kitchen.Title
	}
	if title == "" {
		return f.ID()
	}
	return title
}

// mostTexts is how many texts of one name a Cache keeps: the newest, and what
// open dinners may still have pinned.
const mostTexts = 8

// A Cache compiles each text once. The zero Cache is ready to use.
type Cache struct {
	byName map[string][]*File // the newest last
	stocks []stock            // the newest last
	ruled  map[ruledFile]*File
}

// Compile returns the compiled file of a name and a text, and compiles it only
// when this text of the name was not compiled before.
func (c *Cache) Compile(name, text string) *File {
	known := c.byName[name]
	for _, f := range known {
		if f.text == text {
			return f
		}
	}
	f := Compile(name, text)
	if c.byName == nil {
		c.byName = map[string][]*File{}
	}
	if len(known) == mostTexts {
		known = slices.Clone(known[1:])
	}
	c.byName[name] = append(known, f)
	return f
}
