package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	bolt "go.etcd.io/bbolt"
)

// Verify reads all of a data file that is not open, and returns what is in it,
// or an error that says what is wrong with it. It works on a copy, so that it
// can check a file that can't be written and one of an older format, and never
// changes it.
func Verify(ctx context.Context, path string, opts Options) (Counts, error) {
	dir, remove, err := AsideDir("verify")
	if err != nil {
		return Counts{}, err
	}
	defer remove()
	aside := filepath.Join(dir, filepath.Base(path))
	if err := copyLocked(path, aside, opts); err != nil {
		return Counts{}, openError(path, err)
	}
	s, err := Open(aside, opts)
	if err != nil {
		return Counts{}, fmt.Errorf("%s: %w", path, err)
	}
	defer s.Close()
	if err := s.Check(ctx); err != nil {
		return Counts{}, fmt.Errorf("%s: %w", path, err)
	}
	return s.Counts()
}

// Counts are the numbers of things in a data file.
type Counts struct {
	Records uint64 // events and revisions of files
	Events  int
	Dinners int
	Files   int // file names
	Devices int
	Epoch   string
}

// Counts returns the numbers of things in the data file. It reads every record.
func (s *Store) Counts() (Counts, error) {
	c := Counts{Epoch: s.epoch}
	err := s.View(func(tx *Tx) error {
		c.Records = tx.Seq()
		c.Files = tx.tx.Bucket(bucketHeads).Stats().KeyN
		c.Devices = tx.tx.Bucket(bucketDevices).Stats().KeyN
		dinners := map[string]bool{}
		_, err := tx.Each(func(r Record) error {
			if r.Event != nil {
				c.Events++
				dinners[r.Event.Dinner] = true
			}
			return nil
		})
		c.Dinners = len(dinners)
		return err
	})
	return c, err
}

// copyLocked copies a data file. It fails with [ErrLocked] when a server has the
// file open, and keeps a server from opening it meanwhile.
func copyLocked(from, to string, opts Options) error {
	info, err := os.Stat(from)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("there is no file %s", from)
	case err != nil:
		return err
	case !info.Mode().IsRegular():
		return fmt.Errorf("%s is not a file", from)
	case info.Size() == 0:
		return fmt.Errorf("%s: %w: it is empty", from, ErrDamaged)
	}
	if opts.Timeout == 0 {
		opts.Timeout = lockWait
	}
	db, err := openReading(from, opts) // for its shared lock; a server holds the exclusive one
	if err != nil {
		return openError(from, err)
	}
	defer db.Close()
	in, err := os.Open(from)
	if err != nil {
		return err
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(out, in)
	return errors.Join(err, out.Sync(), out.Close())
}

// openReading opens a bbolt file for reading. The file may hold anything.
func openReading(path string, opts Options) (db *bolt.DB, err error) {
	err = guard(func() error {
		db, err = bolt.Open(path, 0o600, &bolt.Options{Timeout: opts.Timeout, ReadOnly: true})
		return err
	})
	return db, err
}
