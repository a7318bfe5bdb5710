package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"
)

// Verify opens a file, reads all of it and says what is wrong with it, or what
// is in it. The file itself is not touched: a copy aside is opened, so that a
// backup on a stick that can't be written, and one of an older format, can be
// looked at as well.
func Verify(ctx context.Context, path string, opts Options) (Counts, error) {
	dir, err := os.MkdirTemp("", "hobside-verify-*")
	if err != nil {
		return Counts{}, err
	}
	defer os.RemoveAll(dir)
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

// Counts says in numbers what a data file holds.
type Counts struct {
	Records uint64 // events and revisions of files
	Events  int
	Dinners int
	Files   int // names
	Devices int
	Epoch   string
}

// Counts counts.
func (s *Store) Counts() (Counts, error) {
	c := Counts{Epoch: s.epoch}
	err := s.View(func(tx *Tx) error {
		c.Records = tx.Seq()
		c.Files = tx.tx.Bucket(bucketHeads).Stats().KeyN
		c.Devices = tx.tx.Bucket(bucketDevices).Stats().KeyN
		dinners := map[string]bool{}
		err := tx.Each(func(r Record) error {
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

// Each gives every record in turn, oldest first, with its text.
func (tx *Tx) Each(fn func(Record) error) error {
	return tx.tx.Bucket(bucketLog).ForEach(func(k, v []byte) error {
		r, err := decode(unkey(k), v)
		if err == nil && r.File != nil {
			r.File.Text, err = tx.Text(r.File.Revision)
		}
		if err != nil {
			return err
		}
		return fn(r)
	})
}

// Restore puts a backup in a data file's place. The backup is copied, checked
// whole and given an epoch of its own first; whatever is wrong with it, nothing
// has changed. The file that was there is kept beside it, under the name that is
// returned ("" when there was none). Nobody may have the data file open.
//
// Who is let in is taken from the file that was there, when that can be read: a
// phone that was shown the door since the backup must not walk in again by it.
func Restore(ctx context.Context, backup, path string, now time.Time, opts Options) (kept string, err error) {
	if same(backup, path) {
		return "", fmt.Errorf("restore %s: that is the data file itself; name a backup", backup)
	}
	let, free, err := hold(path, opts)
	if err != nil {
		return "", err
	}
	defer free()
	dir := filepath.Dir(path)
	aside, err := os.CreateTemp(dir, filepath.Base(path)+".restore-*")
	if err != nil {
		return "", fmt.Errorf("restore %s: %w", path, err)
	}
	aside.Close()
	defer os.Remove(aside.Name())
	if err := copyLocked(backup, aside.Name(), opts); err != nil {
		return "", fmt.Errorf("restore from %s: %w", backup, err)
	}
	if err := ready(ctx, aside.Name(), let, opts); err != nil {
		return "", fmt.Errorf("restore from %s: nothing was changed: %w", backup, err)
	}
	if _, err := os.Stat(path); err == nil {
		kept = path + ".before-" + now.Format("20060102-150405")
		for n := 2; exists(kept); n++ {
			kept = fmt.Sprintf("%s.before-%s-%d", path, now.Format("20060102-150405"), n)
		}
		// A second name first, so that there is no moment without a data file.
		if err := os.Link(path, kept); err != nil {
			if err := os.Rename(path, kept); err != nil {
				return "", fmt.Errorf("restore %s: can't keep the old file aside: %w", path, err)
			}
		}
	}
	if err := os.Rename(aside.Name(), path); err != nil {
		return kept, fmt.Errorf("restore %s: %w", path, err)
	}
	return kept, syncDir(dir)
}

// hold takes the data file so that no server has it, and reads who is let in:
// nil when that can't be known.
func hold(path string, opts Options) (let *[]deviceRow, free func(), err error) {
	if !exists(path) {
		return nil, func() {}, nil
	}
	s, err := Open(path, opts)
	if errors.Is(err, ErrLocked) {
		return nil, nil, fmt.Errorf("%w: a backup can be put in its place only when nobody has it open", err)
	}
	if err != nil { // damaged: the very reason to restore
		return nil, func() {}, nil
	}
	rows := []deviceRow{}
	err = s.View(func(tx *Tx) error {
		return tx.eachDevice(func(k []byte, d Device) error {
			rows = append(rows, deviceRow{append([]byte(nil), k...), d})
			return nil
		})
	})
	if err != nil {
		return nil, func() { s.Close() }, nil
	}
	return &rows, func() { s.Close() }, nil
}

type deviceRow struct {
	key []byte
	d   Device
}

// ready checks a copy of a backup and makes a data file of it.
func ready(ctx context.Context, path string, let *[]deviceRow, opts Options) error {
	s, err := Open(path, opts)
	if err != nil {
		return err
	}
	err = s.Check(ctx)
	if err == nil && let != nil {
		err = s.Update(func(tx *Tx) error {
			tx.dirty = true
			if err := tx.tx.DeleteBucket(bucketDevices); err != nil {
				return err
			}
			if _, err := tx.tx.CreateBucket(bucketDevices); err != nil {
				return err
			}
			for _, row := range *let {
				if err := tx.putDevice(row.key, row.d); err != nil {
					return err
				}
			}
			return nil
		})
	}
	if err := errors.Join(err, s.Close()); err != nil {
		return err
	}
	return renew(path)
}

// copyLocked copies a data file that nobody may be writing to meanwhile.
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
	// bbolt's own lock, shared: a server holds it whole while it runs.
	db, err := openReading(from, opts)
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

func openReading(path string, opts Options) (db *bolt.DB, err error) {
	err = guard(func() error {
		db, err = bolt.Open(path, 0o600, &bolt.Options{Timeout: opts.Timeout, ReadOnly: true})
		return err
	})
	return db, err
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func same(a, b string) bool {
	x, err := os.Stat(a)
	if err != nil {
		return false
	}
	y, err := os.Stat(b)
	return err == nil && os.SameFile(x, y)
}

// syncDir makes names outlive a power cut.
func syncDir(path string) error {
	dir, err := os.Open(path)
	if err != nil {
		return err
	}
	defer dir.Close()
	return dir.Sync()
}
