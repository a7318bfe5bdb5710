package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"hobside/internal/dinner"
	"hobside/internal/hub"
	"hobside/internal/store"
)

// What an export looks like: the newest text of each card, menu and kitchen
// under its own name, byte for byte; each dinner as one file of JSON lines, an
// event a line in the order the server took them; and under revisions/ the texts
// that dinners are pinned to or that were there before, by their revision.
const (
	dinnersDir       = "dinners"
	formerDinnersDir = "sittings" // as the first release named it
	revisionsDir     = "revisions"
	linesEnd         = ".jsonl"
	importDevice     = "import"
)

// export is `hobside export DIR`. It asks for an empty folder or a new one.
func export(ctx context.Context, args []string, out io.Writer) error {
	data, words, err := dataFlag("export", args, 1, "the folder to write")
	if err != nil {
		return err
	}
	dir := words[0]
	if left, err := os.ReadDir(dir); err == nil && len(left) > 0 {
		return fmt.Errorf("%s is not empty: name a new folder, so that nothing in it is written over", dir)
	}
	h, err := openHouse(data, false)
	if err != nil {
		return err
	}
	defer h.Close()
	// A backup first: one moment of the log, whoever goes on writing to it.
	tmp, err := os.MkdirTemp("", "hobside-export-*")
	if err != nil {
		return err
	}
	defer os.RemoveAll(tmp)
	f, err := os.OpenFile(filepath.Join(tmp, "moment.db"), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	if err := errors.Join(h.Backup(f), f.Close()); err != nil {
		return err
	}
	s, err := store.Open(f.Name(), store.Options{})
	if err != nil {
		return err
	}
	defer s.Close()
	if err := s.Check(ctx); err != nil {
		return err
	}
	files, dinners, err := writeExport(s, dir)
	if err != nil {
		return fmt.Errorf("export to %s: %w", dir, err)
	}
	fmt.Fprintf(out, "%s: %s, %s\n", dir, plural(files, "card, menu or kitchen", "cards, menus and kitchens"), plural(dinners, "dinner"))
	return nil
}

func writeExport(s *store.Store, dir string) (files, dinners int, err error) {
	for _, d := range []string{dir, filepath.Join(dir, dinnersDir), filepath.Join(dir, revisionsDir)} {
		if err := os.MkdirAll(d, 0o755); err != nil {
			return 0, 0, err
		}
	}
	heads := map[string]store.File{}
	lines := map[string]*bytes.Buffer{}
	var order []store.File
	err = s.View(func(tx *store.Tx) error {
		return tx.Each(func(r store.Record) error {
			if r.File != nil {
				heads[r.File.Name] = *r.File
				order = append(order, *r.File)
				return nil
			}
			b, err := json.Marshal(r.Event)
			if err != nil {
				return err
			}
			if lines[r.Event.Dinner] == nil {
				lines[r.Event.Dinner] = &bytes.Buffer{}
			}
			lines[r.Event.Dinner].Write(append(b, '\n'))
			return nil
		})
	})
	if err != nil {
		return 0, 0, err
	}
	for name, f := range heads {
		if err := writeWhole(filepath.Join(dir, name), []byte(f.Text)); err != nil {
			return 0, 0, err
		}
	}
	var index bytes.Buffer
	for _, f := range order {
		// A revision can be of several names, so the text alone is under its hash.
		if err := writeWhole(filepath.Join(dir, revisionsDir, f.Revision+".txt"), []byte(f.Text)); err != nil {
			return 0, 0, err
		}
		b, err := json.Marshal(revisionLine{Name: f.Name, Revision: f.Revision, Base: f.Base})
		if err != nil {
			return 0, 0, err
		}
		index.Write(append(b, '\n'))
	}
	if err := writeWhole(filepath.Join(dir, revisionsDir, "index"+linesEnd), index.Bytes()); err != nil {
		return 0, 0, err
	}
	for name, b := range lines {
		if err := writeWhole(filepath.Join(dir, dinnersDir, name+linesEnd), b.Bytes()); err != nil {
			return 0, 0, err
		}
	}
	return len(heads), len(lines), nil
}

// revisionLine is one line of revisions/index.jsonl, in the order the server took them.
type revisionLine struct {
	Name     string `json:"name"`
	Revision string `json:"revision"`
	Base     string `json:"base"`
}

func writeWhole(name string, b []byte) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(b)
	return errors.Join(err, f.Sync(), f.Close())
}

// importDir is `hobside import DIR`: what export wrote, or any folder of cards.
// It is safe to repeat; it goes by the same way as a phone's own, so a card that
// was edited here meanwhile is merged and not written over.
func importDir(ctx context.Context, args []string, out io.Writer) error {
	flags := flag.NewFlagSet("import", flag.ContinueOnError)
	flags.SetOutput(io.Discard)
	data := flags.String("data", "hobside.db", "data file")
	if err := flags.Parse(args); err != nil {
		return usage("%v", err)
	}
	if flags.NArg() != 1 {
		return usage("give the folder to read")
	}
	dir := flags.Arg(0)
	files, err := readCards(dir)
	if err != nil {
		return err
	}
	old, err := readRevisions(dir)
	if err != nil {
		return err
	}
	events, err := readDinners(dir)
	if err != nil {
		return err
	}
	if len(files)+len(old)+len(events) == 0 {
		return fmt.Errorf("%s has no cards (.md) and no %s: nothing was changed", dir, dinnersDir)
	}
	h, err := openHouse(*data, true)
	if err != nil {
		return err
	}
	defer h.Close()
	took := &intake{house: h}
	if err := took.all(ctx, old, files, events); err != nil {
		return fmt.Errorf("import broke off, and can be repeated: %w", err)
	}
	fmt.Fprintf(out, "%s: %s and %s taken, or here already\n", dir, plural(took.files, "text"), plural(took.events, "event"))
	for _, r := range took.refused {
		fmt.Fprintf(out, "refused %s: %s\n", r.ID, r.Why)
	}
	if len(took.refused) > 0 {
		return errProblems
	}
	return nil
}

func readCards(dir string) ([]hub.Offer, error) {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return nil, fmt.Errorf("there is no folder %s", dir)
	case !info.IsDir():
		return nil, fmt.Errorf("%s is not a folder", dir)
	}
	var folder fs.FS = withoutDirs{os.DirFS(dir)}
	found, err := filesOf(folder)
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

// withoutDirs hides what export keeps beside the cards.
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

// readRevisions reads the earlier texts, each with the one it was made from.
func readRevisions(dir string) ([]hub.Offer, error) {
	name := filepath.Join(dir, revisionsDir, "index"+linesEnd)
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
		var r revisionLine
		if err := json.Unmarshal([]byte(line), &r); err != nil || !dinner.IsFileName(r.Name) || !dinner.IsRevision(r.Revision) || r.Base != "" && !dinner.IsRevision(r.Base) {
			return nil, fmt.Errorf("%s:%d: it is no line of an export: nothing was changed", name, n+1)
		}
		text, err := os.ReadFile(filepath.Join(dir, revisionsDir, r.Revision+".txt"))
		if err != nil {
			return nil, fmt.Errorf("%s:%d: its text is missing: nothing was changed", name, n+1)
		}
		if dinner.Revision(string(text)) != r.Revision {
			return nil, fmt.Errorf("%s: it is not the text it was when it was exported: nothing was changed", filepath.Join(dir, revisionsDir, r.Revision+".txt"))
		}
		o := hub.SeedOffer(r.Name, string(text))
		o.Base = r.Base
		out = append(out, o)
	}
	return out, nil
}

// readDinners reads the events. One line that makes no sense stops the whole
// before anything is changed: half a dinner is worse than none.
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

// intake hands an export to a house in pages.
type intake struct {
	house         house
	files, events int
	refused       []hub.Refusal
}

const (
	pageRecords = 200
	pageBytes   = 2 << 20
)

// all sends the newest texts first, each with what it was made from, and then
// what was before them, to be kept and not to be the newest.
func (in *intake) all(ctx context.Context, old, files []hub.Offer, events []dinner.Event) error {
	last := map[string]hub.Offer{}
	for _, o := range old {
		last[o.Name] = o
	}
	for _, o := range files {
		if was, ok := last[o.Name]; ok && was.Text == o.Text {
			o.Base = was.Base
		} else if ok { // edited since it was exported
			o.Base = dinner.Revision(was.Text)
		}
		if err := in.send(ctx, hub.Request{}, []hub.Offer{o}, nil); err != nil {
			return err
		}
	}
	for _, o := range old {
		if err := in.send(ctx, hub.Request{Keep: true}, []hub.Offer{o}, nil); err != nil {
			return err
		}
	}
	for len(events) > 0 {
		n, size := 0, 0
		for n < len(events) && n < pageRecords && size < pageBytes {
			size += 300 + len(events[n].Text) + 40*len(events[n].Plan)
			n++
		}
		if err := in.send(ctx, hub.Request{}, nil, events[:n]); err != nil {
			return err
		}
		events = events[n:]
	}
	return nil
}

func (in *intake) send(ctx context.Context, req hub.Request, files []hub.Offer, events []dinner.Event) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	req.Device = importDevice
	for _, f := range files {
		b, err := json.Marshal(f)
		if err != nil {
			return err
		}
		req.Files = append(req.Files, b)
	}
	for _, ev := range events {
		b, err := json.Marshal(ev)
		if err != nil {
			return err
		}
		req.Events = append(req.Events, b)
	}
	for wait := 50 * time.Millisecond; ; wait *= 2 {
		reply, err := in.house.Sync(req)
		if err == nil {
			in.refused = append(in.refused, reply.Refused...)
			if len(files) > 0 {
				in.files += len(reply.Acked)
			} else {
				in.events += len(reply.Acked)
			}
			return nil
		}
		if wait > time.Second {
			return err
		}
		select { // the server may be busy; each page is safe to repeat
		case <-time.After(wait):
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}
