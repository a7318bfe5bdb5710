package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/store/bboltpages"
)

// lockWait is how long Open waits for another process to close the file, as
// when one server is stopped and the next is started. bbolt's default is to wait
// for ever.
const lockWait = 2 * time.Second

// Open opens a data file and creates it when there is none. Its errors say what
// is wrong with the file and what to do; they wrap [ErrLocked], [ErrDamaged] or
// [ErrFormat] when that is the reason.
func Open(path string, opts Options) (*Store, error) {
	if opts.Timeout == 0 {
		opts.Timeout = lockWait
	}
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if err := create(path, opts); err != nil {
			return nil, err
		}
	case err != nil:
		return nil, openError(path, err)
	case !info.Mode().IsRegular():
		return nil, fmt.Errorf("open %s: it is not a file", path)
	case info.Size() == 0: // bbolt would turn it into a new, empty data file
		return nil, fmt.Errorf("open %s: %w: it is empty; remove it to start a new one, or put the newest backup in its place", path, ErrDamaged)
	}
	db, err := openBolt(path, opts)
	if err != nil {
		return nil, openError(path, err)
	}
	now, err := os.Stat(path)
	if err != nil || !os.SameFile(info, now) && info != nil {
		db.Close() // a backup was put in its place while we waited for the lock
		return nil, fmt.Errorf("open %s: the file was replaced while it was opened: try again", path)
	}
	Sweep(path)
	s := &Store{path: path, db: db, info: now, watch: opts.Watch, writes: make(chan *write), closing: make(chan struct{}), closed: make(chan struct{})}
	if err := s.inspect(); err != nil {
		db.Close()
		if errors.Is(err, ErrFormat) {
			return nil, err
		}
		return nil, openError(path, err)
	}
	go s.writer()
	return s, nil
}

// openBolt opens the bbolt file at path. The file may hold anything: a panic
// inside bbolt becomes an error that wraps [ErrDamaged].
func openBolt(path string, opts Options) (*bolt.DB, error) {
	open := opts.OpenFile
	if open == nil {
		open = os.OpenFile
	}
	var file *os.File
	var db *bolt.DB
	err := guard(func() (err error) {
		db, err = bolt.Open(path, 0o600, &bolt.Options{
			Timeout:      opts.Timeout,
			MaxSize:      opts.MaxSize,
			FreelistType: bolt.FreelistMapType,
			OpenFile: func(name string, flag int, mode os.FileMode) (*os.File, error) {
				var err error
				file, err = open(name, flag, mode)
				return file, err
			},
		})
		return err
	})
	if err != nil && db == nil && file != nil {
		unlock(file) // bolt.Open leaves the file locked when it panics, and closed when it returns an error
		file.Close()
	}
	return db, err
}

// inspect checks a file that was just opened: its pages must be whole, its
// format this release's or an older one, which inspect upgrades, and its buckets
// epoch and last record present. It checks the entries of the indexes, and does not read
// the records; [Store.Check] does.
func (s *Store) inspect() error {
	if err := s.pages(); err != nil {
		return err
	}
	if err := s.upgrade(); err != nil {
		return err
	}
	return s.View(func(tx *Tx) error {
		for _, name := range buckets {
			if tx.tx.Bucket(name) == nil {
				return fmt.Errorf("%w: its bucket %q is missing", ErrDamaged, name)
			}
		}
		s.epoch = tx.Epoch()
		if s.epoch == "" {
			return fmt.Errorf("%w: its epoch is missing or has changed", ErrDamaged)
		}
		if last, _ := tx.tx.Bucket(bucketLog).Cursor().Last(); unkey(last) != tx.Seq() {
			return fmt.Errorf("%w: its log ends with record %d and not %d", ErrDamaged, unkey(last), tx.Seq())
		}
		// The rest of the file can still be used: Damage tells.
		tx.sealed(func(err error) { s.note(err) })
		return nil
	})
}

// pages checks the structure of the file's pages and returns an error that wraps
// [ErrDamaged] when it is wrong. No write may be in progress.
func (s *Store) pages() error {
	file, err := os.Open(s.path)
	if err != nil {
		return err
	}
	defer file.Close()
	return s.View(func(tx *Tx) error {
		err := bboltpages.Check(file, s.db.Info().PageSize, tx.tx.ID())
		switch {
		case errors.Is(err, bboltpages.ErrVersion): // bbolt was upgraded and bboltpages was not: the file may be whole
			return err
		case err != nil:
			return fmt.Errorf("%w: %v", ErrDamaged, err)
		}
		return nil
	})
}
