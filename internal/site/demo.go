package site

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/engine"
	"hobside/internal/folder"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// The demo dinner as it is in a new data file. DemoTitle is its name.
const (
	DemoTitle  = "The boathouse supper"
	demoMenu   = "boathouse-supper.md"
	demoDinner = "boathouse"
	demoDevice = "hobside" // the device that its events name
)

// seedDemo puts the demo dinner into a new data file: its files, and a dinner
// of its menu on a day, "2006-01-02", or on the coming Saturday when the day is "".
func seedDemo(tx *store.Tx, demo fs.FS, day string, now time.Time) error {
	files, err := folder.Cards(demo)
	if err != nil {
		return fmt.Errorf("the demo dinner: %w", err)
	}
	open, err := openDemo(files, day, now)
	if err != nil {
		return fmt.Errorf("the demo dinner: %w", err)
	}
	offers := make([]hub.Offer, len(files))
	for i, f := range files {
		offers[i] = hub.SeedOffer(f.Name, f.Text)
	}
	return hub.Seed(tx, now, demoDevice, offers, []dinner.Event{open})
}

// comingSaturday returns the first Saturday that begins at least two days after a
// moment, "2006-01-02", in the moment's own time zone. The demo's kitchen opens two
// days before its dinner: so none of its work is late when somebody sees it first.
func comingSaturday(now time.Time) string {
	day := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	for day.AddDate(0, 0, -2).Before(now) || day.Weekday() != time.Saturday {
		day = day.AddDate(0, 0, 1)
	}
	return day.Format(time.DateOnly)
}

// openDemo returns the event that opens the demo dinner on a day, the coming
// Saturday for "". Covers, time of day and kitchen are those of its menu.
func openDemo(files []folder.File, day string, now time.Time) (dinner.Event, error) {
	load := engine.LoadCall{}
	for _, f := range files {
		load.Files = append(load.Files, engine.File{Name: f.Name, Text: f.Text})
	}
	in, err := json.Marshal(load)
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
		if day == "" {
			day = comingSaturday(now)
		}
		_, hour, ok := strings.Cut(f.Serve, "T")
		if !ok {
			return dinner.Event{}, fmt.Errorf("%s has no serving time", demoMenu)
		}
		return dinner.Event{
			ID: demoDinner + "-open", Dinner: demoDinner, Device: demoDevice, Kind: dinner.KindOpen,
			Stamp: dinner.Stamp{Wall: now.UnixMilli()}, Text: DemoTitle,
			Open: &dinner.Open{Menu: f.Name, Kitchen: f.Kitchen, Covers: f.Covers, Serve: day + "T" + hour, Files: pins},
		}, nil
	}
	return dinner.Event{}, fmt.Errorf("%s is not there", demoMenu)
}
