package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"time"

	"hobside/content"
	"hobside/internal/dinner"
	"hobside/internal/engine"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// The demo dinner as it is in a new data file.
const (
	demoName   = "the boathouse supper"
	demoTitle  = "The boathouse supper"
	demoMenu   = "boathouse-supper.md"
	demoDinner = "boathouse"
	demoDevice = "hobside" // as if the server itself had made it
)

// seedDemo puts the demo dinner into a new data file: its files, and a dinner
// of its menu.
func seedDemo(tx *store.Tx, now time.Time) error {
	files, err := filesOf(content.Files)
	if err != nil {
		return fmt.Errorf("the demo dinner: %w", err)
	}
	open, err := openDemo(files, now)
	if err != nil {
		return fmt.Errorf("the demo dinner: %w", err)
	}
	offers := make([]hub.Offer, len(files))
	for i, f := range files {
		offers[i] = hub.SeedOffer(f.Name, f.Text)
	}
	return hub.Seed(tx, now, demoDevice, offers, []dinner.Event{open})
}

// filesOf lists the cards, menus and kitchens of a folder and those in it, by
// their names alone. README.md files explain a folder.
func filesOf(folder fs.FS) ([]engine.File, error) {
	var files []engine.File
	from := map[string]string{}
	err := fs.WalkDir(folder, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(p) != ".md" || d.Name() == "README.md" {
			return err
		}
		if other, taken := from[d.Name()]; taken {
			return fmt.Errorf("%s and %s have one name", other, p)
		}
		from[d.Name()] = p
		b, err := fs.ReadFile(folder, p)
		files = append(files, engine.File{Name: d.Name(), Text: string(b)})
		return err
	})
	return files, err
}

// openDemo makes the event that opens the demo's dinner. What it serves, when
// and where is the menu's own word.
func openDemo(files []engine.File, now time.Time) (dinner.Event, error) {
	in, err := json.Marshal(engine.LoadCall{Files: files})
	if err != nil {
		return dinner.Event{}, err
	}
	var view struct {
		engine.LibraryView
		engine.Failure
	}
	if err := json.Unmarshal(engine.New().Call("load", in), &view); err != nil {
		return dinner.Event{}, err
	}
	if view.Error != "" {
		return dinner.Event{}, errors.New(view.Error)
	}
	revisions := map[string]string{}
	for _, f := range files {
		revisions[f.Name] = dinner.Revision(f.Text)
	}
	for _, f := range view.Files {
		if f.Name != demoMenu {
			continue
		}
		pins := map[string]string{}
		for _, name := range f.Needs {
			if revisions[name] == "" {
				return dinner.Event{}, fmt.Errorf("%s needs %s, which is not there", demoMenu, name)
			}
			pins[name] = revisions[name]
		}
		return dinner.Event{
			ID: demoDinner + "-open", Dinner: demoDinner, Device: demoDevice, Kind: dinner.KindOpen,
			Stamp: dinner.Stamp{Wall: now.UnixMilli()}, Text: demoTitle,
			Open: &dinner.Open{Menu: f.Name, Kitchen: f.Kitchen, Covers: f.Covers, Serve: f.Serve, Files: pins},
		}, nil
	}
	return dinner.Event{}, fmt.Errorf("%s is not there", demoMenu)
}
