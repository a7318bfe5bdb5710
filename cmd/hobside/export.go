package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"hobside/internal/control"
	"hobside/internal/folder"
	"hobside/internal/store"
)

// export is `hobside export DIR`. It wants a new or an empty folder.
func export(ctx context.Context, args []string, out io.Writer) error {
	data, words, err := dataFlag("export", args, 1, "the folder to write")
	if err != nil {
		return err
	}
	dir := words[0]
	if left, err := os.ReadDir(dir); err == nil && len(left) > 0 {
		return fmt.Errorf("%s is not empty: name a new folder, so that nothing in it is overwritten", dir)
	}
	done, err := exportTo(data, dir)
	if err != nil {
		return fmt.Errorf("export to %s: %w", dir, err)
	}
	fmt.Fprintf(out, "%s: %s, %s\n", dir, plural(done.Files, "card, menu or kitchen", "cards, menus and kitchens"), plural(done.Dinners, "dinner"))
	for _, n := range done.Notes {
		fmt.Fprintln(out, n)
	}
	for _, d := range done.Damaged {
		fmt.Fprintf(out, "record %d is not in the export: %s\n", d.Seq, d.Why)
	}
	if len(done.Damaged) > 0 {
		return errProblems
	}
	return nil
}

// exportTo exports from a backup made for it: the backup is the log at one
// moment, while the server may go on writing. A damaged file gives what can be read.
func exportTo(data, dir string) (done folder.Exported, err error) {
	h, err := control.Open(data, false)
	if err != nil {
		return done, err
	}
	defer h.Close()
	tmp, remove, err := store.AsideDir("export")
	if err != nil {
		return done, err
	}
	defer remove()
	f, err := os.OpenFile(filepath.Join(tmp, "moment.db"), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return done, err
	}
	if err := errors.Join(h.Backup(f), f.Close()); err != nil {
		return done, err
	}
	s, err := store.Open(f.Name(), store.Options{})
	if err != nil {
		return done, err
	}
	defer s.Close()
	return folder.Export(s, dir)
}
