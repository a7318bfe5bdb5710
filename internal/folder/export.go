package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"

	"hobside/internal/store"
)

const (
	dinnersDir       = "dinners"
	formerDinnersDir = "sittings" // as the first release named it
	revisionsDir     = "revisions"
	revisionIndex    = "index.jsonl" // in revisionsDir
	cardsEnd         = ".md"
	linesEnd         = ".jsonl" // of a dinner's file
)

// An Exported is what [Export] wrote.
type Exported struct {
	Files, Dinners int
	Notes          []string        // for each file that is written under another name than its own
	Damaged        []store.Damaged // records that can't be read and are not in the export
}

// Export writes the store's library and dinners to dir, which is made if it is
// missing. Damaged records are left out and named. The caller
// sees to it that dir is empty and that nobody writes to the store meanwhile.
func Export(s *store.Store, dir string) (out Exported, err error) {
	for _, d := range []string{dir, filepath.Join(dir, dinnersDir), filepath.Join(dir, revisionsDir)} {
		if err := os.MkdirAll(d, 0o755); err != nil {
			return out, err
		}
	}
	texts, events, damaged, err := readStore(s)
	if err != nil {
		return out, err
	}
	heads := map[string]string{} // newest text by file name
	for _, f := range texts {
		if f.Beside == "" {
			heads[f.Name] = f.Text
		}
	}
	safe, notes := safeNames(keysOf(heads), cardsEnd)
	for name, text := range heads {
		if err := writeWhole(filepath.Join(dir, safe[name]), []byte(text)); err != nil {
			return out, err
		}
	}
	if err := writeRevisions(filepath.Join(dir, revisionsDir), texts, safe); err != nil {
		return out, err
	}
	var ids []string
	for id := range events {
		ids = append(ids, id+linesEnd)
	}
	safeDinners, more := safeNames(ids, linesEnd)
	for id, lines := range events {
		if err := writeWhole(filepath.Join(dir, dinnersDir, safeDinners[id+linesEnd]), lines.Bytes()); err != nil {
			return out, err
		}
	}
	return Exported{Files: len(heads), Dinners: len(events), Notes: append(notes, more...), Damaged: damaged}, nil
}

// readStore returns every revision in the order the server took them, each
// dinner's events as lines of JSON, and the records that can't be read.
func readStore(s *store.Store) (texts []store.File, events map[string]*bytes.Buffer, damaged []store.Damaged, err error) {
	events = map[string]*bytes.Buffer{}
	err = s.View(func(tx *store.Tx) (err error) {
		damaged, err = tx.Each(func(r store.Record) error {
			if r.File != nil {
				texts = append(texts, *r.File)
				return nil
			}
			line, err := json.Marshal(r.Event)
			if err != nil {
				return err
			}
			if events[r.Event.Dinner] == nil {
				events[r.Event.Dinner] = &bytes.Buffer{}
			}
			events[r.Event.Dinner].Write(append(line, '\n'))
			return nil
		})
		return err
	})
	return texts, events, damaged, err
}

// writeRevisions writes each text under its revision, and an index of which file
// each belongs to: two files may have the same text. Safe is the name each file is
// written under.
func writeRevisions(dir string, texts []store.File, safe map[string]string) error {
	var index bytes.Buffer
	for _, f := range texts {
		if err := writeWhole(filepath.Join(dir, f.Revision+".txt"), []byte(f.Text)); err != nil {
			return err
		}
		l := revisionLine{Name: f.Name, Revision: f.Revision, Base: f.Base, Beside: f.Beside + f.Awaits, Settles: f.Settles}
		if safe[f.Name] != f.Name {
			l.File = safe[f.Name]
		}
		line, err := json.Marshal(l)
		if err != nil {
			return err
		}
		index.Write(append(line, '\n'))
	}
	return writeWhole(filepath.Join(dir, revisionIndex), index.Bytes())
}

// revisionLine is one line of revisions/index.jsonl.
type revisionLine struct {
	Name     string   `json:"name"`
	Revision string   `json:"revision"`
	Base     string   `json:"base"`
	Beside   string   `json:"beside,omitempty"`  // see store.File
	Settles  []string `json:"settles,omitempty"` // see store.File
	File     string   `json:"file,omitempty"`    // the name its newest text is written under, when it is another
}

// writeWhole writes a file and syncs it to disk.
func writeWhole(name string, b []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(b)
	return errors.Join(err, f.Sync(), f.Close())
}
