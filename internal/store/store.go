package store

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"time"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/store/bboltpages"
)

// lockWait is how long another process gets to let go of the file, as when one
// server is stopped and the next is started. bbolt waits for ever by default.
const lockWait = 2 * time.Second

var (
	bucketMeta      = []byte("meta")
	bucketLog       = []byte("log")
	bucketByID      = []byte("byid")
	bucketHeads     = []byte("heads")
	bucketRevisions = []byte("revisions")
	bucketBases     = []byte("bases")
	bucketTexts     = []byte("texts")
	bucketDevices   = []byte("devices")
	buckets         = [][]byte{bucketMeta, bucketLog, bucketByID, bucketHeads, bucketRevisions, bucketBases, bucketTexts, bucketDevices}

	keyFormat = []byte("format")
	keyEpoch  = []byte("epoch")
	keyNewest = []byte("newest")
)

// Options of [Open]. The zero value is right for a server.
type Options struct {
	// New fills a data file that is being made, before anybody can see it.
	New func(*Tx) error
	// Timeout is how long to wait for another process; 0 means two seconds.
	Timeout time.Duration
	// MaxSize bounds the file in bytes; 0 means no bound.
	MaxSize int
	// OpenFile opens files in place of os.OpenFile, for tests of failing disks.
	OpenFile func(string, int, os.FileMode) (*os.File, error)
}

// A Store is an open data file. It is safe for use by many goroutines.
type Store struct {
	path  string
	db    *bolt.DB
	epoch string

	writes  chan *write
	closing chan struct{}
	closed  chan struct{}
	once    sync.Once
	// writing is held by the one who changes pages; [Store.Check] needs them still.
	writing sync.Mutex
	failed  error // under writing: why nothing more is written
}

// Open opens a data file, and makes it when there is none. Errors say what is
// wrong with the file and what to do; they wrap [ErrLocked], [ErrDamaged] or
// [ErrFormat].
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
	case info.Size() == 0: // bbolt would quietly begin a new one here
		return nil, fmt.Errorf("open %s: %w: it is empty; remove it to begin a new one, or put the newest backup in its place", path, ErrDamaged)
	}
	db, err := openBolt(path, opts)
	if err != nil {
		return nil, openError(path, err)
	}
	if now, err := os.Stat(path); err != nil || !os.SameFile(info, now) && info != nil {
		db.Close() // a backup was put in its place while we waited for the lock
		return nil, fmt.Errorf("open %s: it was replaced just now: try again", path)
	}
	s := &Store{path: path, db: db, writes: make(chan *write), closing: make(chan struct{}), closed: make(chan struct{})}
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

// openBolt opens a file that may hold anything.
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
		unlock(file) // a panic in bolt.Open left it so; where there was none this does nothing
		file.Close()
	}
	return db, err
}

// inspect looks over a file just opened: that its pages are whole and that it is
// of this release, or older and brought up to it. It does not read the records; [Store.Check] does.
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
			return fmt.Errorf("%w: its epoch is missing", ErrDamaged)
		}
		return nil
	})
}

// pages checks the structure of the file's pages and returns an error that wraps
// [ErrDamaged] when it is wrong. No write may be under way.
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

// create makes a data file aside, fills it, and only then gives it its name: a
// power cut leaves either no file or a whole one.
func create(path string, opts Options) error {
	dir := filepath.Dir(path)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return fmt.Errorf("cannot make %s: there is no folder %s", path, dir)
	}
	aside, err := os.CreateTemp(dir, filepath.Base(path)+".new-*")
	if err != nil {
		return fmt.Errorf("cannot make %s: %w", path, err)
	}
	aside.Close()
	defer os.Remove(aside.Name())
	if err := fill(aside.Name(), opts); err != nil {
		return fmt.Errorf("cannot make %s: %w", path, err)
	}
	return settle(aside.Name(), path)
}

// fill makes the buckets of a new file.
func fill(path string, opts Options) error {
	db, err := openBolt(path, opts)
	if err != nil {
		return err
	}
	err = db.Update(func(btx *bolt.Tx) error {
		for _, name := range buckets {
			if _, err := btx.CreateBucket(name); err != nil {
				return err
			}
		}
		meta := btx.Bucket(bucketMeta)
		if err := errors.Join(meta.Put(keyFormat, []byte(strconv.Itoa(format))), meta.Put(keyEpoch, newEpoch())); err != nil {
			return err
		}
		if opts.New == nil {
			return nil
		}
		return opts.New(&Tx{tx: btx})
	})
	return errors.Join(err, db.Close()) // bbolt synced it when it committed
}

// settle gives a file that is whole its name, unless the name is taken by now.
func settle(aside, path string) error {
	err := os.Link(aside, path) // unlike Rename, never over a file that another process made meanwhile
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		err = os.Rename(aside, path) // a file system without links
	}
	if err != nil {
		return fmt.Errorf("cannot make %s: %w", path, err)
	}
	return syncDir(filepath.Dir(path)) // the name too must outlive a power cut
}

func newEpoch() []byte {
	var b [8]byte
	rand.Read(b[:]) // never fails, says crypto/rand
	return hex.AppendEncode(nil, b[:])
}

// Epoch names the run of sequence numbers.
func (s *Store) Epoch() string { return s.epoch }

// Path is the file's name as it was given.
func (s *Store) Path() string { return s.path }

// Close waits for the write under way and closes the file. Writes that have not
// begun get [ErrClosed].
func (s *Store) Close() error {
	var err error
	s.once.Do(func() {
		close(s.closing)
		<-s.closed
		err = s.db.Close()
	})
	return err
}
