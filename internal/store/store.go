package store

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"os"
	"sync"
	"sync/atomic"
	"time"

	bolt "go.etcd.io/bbolt"
)

// The buckets and the keys of the meta bucket; doc.go says what each holds.
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

// Options are the settings of [Open]. The zero value is right for a server.
type Options struct {
	// New fills a new data file before any other process can see it.
	New func(*Tx) error
	// Timeout is how long to wait while another process has the file open; 0 means two seconds.
	Timeout time.Duration
	// MaxSize limits the file's size in bytes; 0 means no limit.
	MaxSize int
	// OpenFile replaces os.OpenFile, for tests of failing disks.
	OpenFile func(string, int, os.FileMode) (*os.File, error)
}

// A Store is an open data file. It is safe for use by many goroutines.
type Store struct {
	path  string
	db    *bolt.DB
	epoch string

	writes  chan *write   // to the writer goroutine
	closing chan struct{} // closed by Close
	closed  chan struct{} // closed when the writer has stopped
	once    sync.Once     // of Close

	// writing is held while pages change. [Store.Check] holds it too, because it
	// needs pages that do not change.
	writing   sync.Mutex
	failed    error             // why nothing more is written; nil while all is well
	followers []func([]Written) // see Follow

	damage atomic.Pointer[error] // see Damage
}

// newEpoch returns a random epoch: 16 hexadecimal digits.
func newEpoch() []byte {
	var b [8]byte
	rand.Read(b[:]) // never returns an error, says package crypto/rand
	return hex.AppendEncode(nil, b[:])
}

// Epoch identifies this run of sequence numbers. A phone whose cursor is of
// another epoch must start over.
func (s *Store) Epoch() string { return s.epoch }

// Path returns the data file's name as it was given to [Open].
func (s *Store) Path() string { return s.path }

// Damage returns the first damage that was found while the file was read, nil when
// none was. It stays until the file is opened again, because a disk that changed
// one byte may change more.
func (s *Store) Damage() error {
	if err := s.damage.Load(); err != nil {
		return *err
	}
	return nil
}

// note keeps an error that wraps [ErrDamaged] for Damage, and returns it. s may be
// nil.
func (s *Store) note(err error) error {
	if s != nil && errors.Is(err, ErrDamaged) {
		s.damage.CompareAndSwap(nil, &err)
	}
	return err
}

// Close waits for the write in progress and closes the file. Writes that have
// not begun get [ErrClosed]. A second Close does nothing and returns nil.
func (s *Store) Close() error {
	var err error
	s.once.Do(func() {
		close(s.closing)
		<-s.closed
		err = s.db.Close()
	})
	return err
}
