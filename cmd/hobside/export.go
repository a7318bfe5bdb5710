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
	files, dinners, notes, err := exportTo(ctx, data, dir)
	if err != nil {
		return fmt.Errorf("export to %s: %w", dir, err)
	}
	fmt.Fprintf(out, "%s: %s, %s\n", dir, plural(files, "card, menu or kitchen", "cards, menus and kitchens"), plural(dinners, "dinner"))
	for _, n := range notes {
		fmt.Fprintln(out, n)
	}
	return nil
}

// exportTo exports from a backup made for it: the backup is the log at one
// moment, while the server may go on writing.
func exportTo(ctx context.Context, data, dir string) (files, dinners int, notes []string, err error) {
	h, err := control.Open(data, false)
	if err != nil {
		return 0, 0, nil, err
	}
	defer h.Close()
	tmp, err := os.MkdirTemp("", "hobside-export-*")
	if err != nil {
		return 0, 0, nil, err
	}
	defer os.RemoveAll(tmp)
	f, err := os.OpenFile(filepath.Join(tmp, "moment.db"), os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return 0, 0, nil, err
	}
	if err := errors.Join(h.Backup(f), f.Close()); err != nil {
		return 0, 0, nil, err
	}
	s, err := store.Open(f.Name(), store.Options{})
	if err != nil {
		return 0, 0, nil, err
	}
	defer s.Close()
	if err := s.Check(ctx); err != nil {
		return 0, 0, nil, err
	}
	return folder.Export(s, dir)
}
