package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"hobside/internal/dinner"
	"hobside/internal/hub"
)

// readCards returns the cards, menus and kitchens of an import as offers. Names
// holds the own name of each file that Export wrote under another.
func readCards(t *tree, names map[string]string) ([]hub.Offer, error) {
	found, err := Cards(t)
	if err != nil {
		return nil, err
	}
	var out []hub.Offer
	for _, f := range found {
		if !dinner.IsFileName(f.Name) {
			return nil, fmt.Errorf("%s can't be the name of a card: nothing was changed", f.Name)
		}
		name := f.Name
		if own, ok := names[name]; ok {
			name = own
		}
		out = append(out, hub.SeedOffer(name, f.Text))
	}
	return out, nil
}

// readRevisions reads the earlier texts, each with the revision it was edited
// from, and fills names for readCards. Every text must match its revision, which is its hash.
func readRevisions(t *tree, names map[string]string) ([]hub.Offer, error) {
	if _, err := t.list(revisionsDir); err != nil {
		return nil, err
	}
	index := path.Join(revisionsDir, revisionIndex)
	name := t.path(index)
	b, err := t.read(index, maxLines)
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
		file := path.Join(revisionsDir, r.Revision+".txt")
		text, err := t.read(file, hub.MaxText)
		if errors.Is(err, fs.ErrNotExist) {
			return nil, fmt.Errorf("%s:%d: its text is missing: nothing was changed", name, n+1)
		}
		if err != nil {
			return nil, err
		}
		if dinner.Revision(string(text)) != r.Revision {
			return nil, fmt.Errorf("%s: the text was changed after it was exported: nothing was changed", t.path(file))
		}
		o := hub.SeedOffer(r.Name, string(text))
		o.Base, o.Beside, o.Settles = r.Base, r.Beside, r.Settles
		if r.File != "" {
			names[r.File] = r.Name
		}
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
	return r, dinner.IsFileName(r.Name) && dinner.IsRevision(r.Revision) && (r.Base == "" || dinner.IsRevision(r.Base)) && (r.File == "" || dinner.IsFileName(r.File))
}

// readDinners reads the events of all dinners. One line that can't be read stops
// the import before anything is changed: half a dinner is worse than none.
func readDinners(t *tree) ([]dinner.Event, error) {
	var out []dinner.Event
	for _, folder := range []string{dinnersDir, formerDinnersDir} {
		entries, err := t.list(folder)
		if err != nil {
			return nil, err
		}
		for _, e := range entries {
			if e.IsDir() || path.Ext(e.Name()) != linesEnd {
				continue
			}
			name := path.Join(folder, e.Name())
			b, err := t.read(name, maxLines)
			if err != nil {
				return nil, err
			}
			events, err := readLines(t.path(name), b)
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
