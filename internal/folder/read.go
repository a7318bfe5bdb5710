package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// readCards returns the cards, menus and kitchens of an import as offers.
func readCards(dir string) ([]hub.Offer, error) {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return nil, fmt.Errorf("there is no folder %s", dir)
	case !info.IsDir():
		return nil, fmt.Errorf("%s is not a folder", dir)
	}
	var fsys fs.FS = withoutDirs{os.DirFS(dir)}
	found, err := Cards(fsys)
	if err != nil {
		return nil, err
	}
	var out []hub.Offer
	for _, f := range found {
		if !dinner.IsFileName(f.Name) {
			return nil, fmt.Errorf("%s can't be the name of a card: nothing was changed", f.Name)
		}
		out = append(out, hub.SeedOffer(f.Name, f.Text))
	}
	return out, nil
}

// withoutDirs hides the folders that Export writes beside the cards.
type withoutDirs struct{ fs.FS }

func (w withoutDirs) ReadDir(name string) ([]fs.DirEntry, error) {
	all, err := fs.ReadDir(w.FS, name)
	if name != "." {
		return all, err
	}
	return slices.DeleteFunc(all, func(d fs.DirEntry) bool {
		return d.IsDir() && (d.Name() == dinnersDir || d.Name() == formerDinnersDir || d.Name() == revisionsDir)
	}), err
}

// readRevisions reads the earlier texts, each with the revision it was edited
// from. Every text must match its revision, which is its hash.
func readRevisions(dir string) ([]hub.Offer, error) {
	name := filepath.Join(dir, revisionsDir, revisionIndex)
	b, err := os.ReadFile(name)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var out []hub.Offer
	for n, line := range strings.Split(strings.TrimSuffix(string(b), "\n"), "\n") {
		if line == "" {
			continue
		}
		r, ok := parseRevisionLine([]byte(line))
		if !ok {
			return nil, fmt.Errorf("%s:%d: this is not a line that export wrote: nothing was changed", name, n+1)
		}
		text, err := os.ReadFile(filepath.Join(dir, revisionsDir, r.Revision+".txt"))
		if err != nil {
			return nil, fmt.Errorf("%s:%d: its text is missing: nothing was changed", name, n+1)
		}
		if dinner.Revision(string(text)) != r.Revision {
			return nil, fmt.Errorf("%s: the text was changed after it was exported: nothing was changed", filepath.Join(dir, revisionsDir, r.Revision+".txt"))
		}
		o := hub.SeedOffer(r.Name, string(text))
		o.Base = r.Base
		out = append(out, o)
	}
	return out, nil
}

// parseRevisionLine reads a line of the index; ok is false for any line that
// Export would not write.
func parseRevisionLine(line []byte) (r revisionLine, ok bool) {
	if json.Unmarshal(line, &r) != nil {
		return r, false
	}
	return r, dinner.IsFileName(r.Name) && dinner.IsRevision(r.Revision) && (r.Base == "" || dinner.IsRevision(r.Base))
}

// readDinners reads the events of all dinners. One line that can't be read stops
// the import before anything is changed: half a dinner is worse than none.
func readDinners(dir string) ([]dinner.Event, error) {
	var out []dinner.Event
	for _, folder := range []string{dinnersDir, formerDinnersDir} {
		entries, err := os.ReadDir(filepath.Join(dir, folder))
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return nil, err
		}
		for _, e := range entries {
			if e.IsDir() || filepath.Ext(e.Name()) != linesEnd {
				continue
			}
			name := filepath.Join(dir, folder, e.Name())
			b, err := os.ReadFile(name)
			if err != nil {
				return nil, err
			}
			events, err := readLines(name, b)
			if err != nil {
				return nil, err
			}
			out = append(out, events...)
		}
	}
	return out, nil
}

// readLines reads events, one a line of JSON. Name is the file, for errors.
func readLines(name string, b []byte) ([]dinner.Event, error) {
	var out []dinner.Event
	for n, line := range bytes.Split(bytes.TrimSuffix(b, []byte("\n")), []byte("\n")) {
		if len(line) == 0 {
			continue
		}
		ev, err := dinner.ReadEvent(line)
		if err == nil {
			err = dinner.Validate(ev)
		}
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %v: nothing was changed", name, n+1, err)
		}
		out = append(out, ev)
	}
	return out, nil
}
