package main

import (
	"errors"
	"flag"
	"fmt"
	"path/filepath"

	"hobside/internal/dinner"
	"hobside/internal/engine"
	"hobside/internal/folder"
	"hobside/internal/quantity"
)

// dinnerFlags is a dinner as the flags of a command name it.
type dinnerFlags struct {
	menu, folder string // file of the menu; folder of its cards
	kitchen      string // file of a kitchen; "" for the one the menu names
	covers       int    // 0 for the menu's number
	serve        string // "2006-01-02T15:04"; "" for the menu's time
}

// menuFlags are the flags by which a command names the dinner of a menu.
type menuFlags struct{ menu, covers, cards *string }

func newMenuFlags(flags *flag.FlagSet) menuFlags {
	return menuFlags{
		menu:   flags.String("menu", "", "the menu's file"),
		covers: flags.String("covers", "", "how many guests, instead of the menu's own number"),
		cards:  flags.String("cards", "", "the folder of the cards; without it, the menu's own and those below it"),
	}
}

// read parses the arguments and returns the dinner that they name. It fails when no
// menu is named, when the covers are not a number, and for any other argument.
func (m menuFlags) read(flags *flag.FlagSet, args []string) (in dinnerFlags, err error) {
	names, err := parse(flags, args)
	if err != nil {
		return in, err
	}
	in = dinnerFlags{menu: *m.menu, folder: *m.cards}
	switch in.covers, err = readCovers(*m.covers); {
	case len(names) > 0:
		return in, usage("unexpected argument %q", names[0])
	case in.menu == "":
		return in, usage("name a menu: --menu FILE")
	case in.folder == "":
		in.folder = filepath.Dir(in.menu)
	}
	return in, err
}

// readCovers reads the value of --covers; "" is 0, the menu's own number.
func readCovers(typed string) (n int, err error) {
	if typed == "" {
		return 0, nil
	}
	const most = 1_000_000
	n, err = quantity.ParseCount(typed, most)
	var doubt *quantity.AmountError
	switch {
	case errors.As(err, &doubt) && doubt.Doubtful:
		return 0, usage("--covers: %q %v", typed, err)
	case err != nil:
		return 0, usage("%s covers: give a number from 1 to %d", typed, most)
	}
	return n, nil
}

// openMenu opens a dinner of a menu in the engine, as a phone does.
func openMenu(e *engine.Engine, in dinnerFlags) (*engine.DinnerView, error) {
	name := filepath.Base(in.menu)
	paths, err := markdownIn(in.folder)
	if err != nil {
		return nil, err
	}
	if own := filepath.Dir(in.menu); filepath.Clean(in.folder) != own {
		near, err := markdownOf(own) // the kitchen that the menu names, and its foods
		if err != nil {
			return nil, err
		}
		paths = append(paths, near...)
	}
	first := []string{in.menu}
	if in.kitchen != "" {
		first = append(first, in.kitchen)
	}
	load := engine.LoadCall{}
	texts, revisions := map[string]string{}, map[string]string{}
	for _, path := range append(first, paths...) {
		base := filepath.Base(path)
		if _, twice := revisions[base]; twice {
			continue // the menu itself; check reports two files of one name
		}
		text, err := folder.ReadFile(path)
		if err != nil {
			return nil, err
		}
		rev := dinner.Revision(text)
		texts[rev], revisions[base] = text, rev
		load.Files = append(load.Files, engine.File{Name: base, Text: text})
	}
	var library engine.LibraryView
	if err := ask(e, "load", load, &library); err != nil {
		return nil, err
	}
	kinds := map[string]engine.LibraryFile{}
	for _, f := range library.Files {
		kinds[f.Name] = f
	}
	f, ok := kinds[name]
	switch {
	case !ok:
		return nil, fmt.Errorf("there is no %s", in.menu)
	case f.Kind != "menu":
		return nil, fmt.Errorf("%s is a %s, not a menu: a menu says \"covers:\" in its front matter", in.menu, f.Kind)
	}
	open := &dinner.Open{Menu: f.Name, Kitchen: f.Kitchen, Covers: f.Covers, Serve: f.Serve, Files: map[string]string{}}
	for _, need := range f.Needs {
		open.Files[need] = revisions[need]
	}
	if in.kitchen != "" {
		open.Kitchen = filepath.Base(in.kitchen)
		if k := kinds[open.Kitchen]; k.Kind != "kitchen" {
			return nil, fmt.Errorf("%s is a %s, not a kitchen: a kitchen says \"cooks:\" in its front matter", in.kitchen, k.Kind)
		}
		open.Files[open.Kitchen] = revisions[open.Kitchen]
	}
	if in.covers > 0 {
		open.Covers = in.covers
	}
	if in.serve != "" {
		open.Serve = in.serve
	}
	const id = "command-line"
	call := engine.OpenCall{Dinner: id, Texts: texts, Events: []dinner.Event{{ID: id, Dinner: id, Device: id, Kind: dinner.KindOpen, Open: open}}}
	var sheet engine.Sheet
	if err := ask(e, "open", call, &sheet); err != nil {
		return nil, err
	}
	if sheet.Dinner == nil {
		return nil, errors.New("the engine opened no dinner")
	}
	return sheet.Dinner, nil
}
