package store

import (
	"crypto/rand"
	"encoding/hex"
	"errors"
	"fmt"
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
	bucketImports   = []byte("imports")
	bucketDevices   = []byte("devices")
	bucketVolumes   = []byte("volumes")
	sealedBuckets   = [][]byte{bucketByID, bucketHeads, bucketRevisions, bucketBases, bucketImports, bucketDevices, bucketVolumes}
	buckets         = append([][]byte{bucketMeta, bucketLog, bucketTexts}, sealedBuckets...)

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
	// Watch says when to look whether the data file is still the one that is open; nil
	// means every two seconds.
	Watch <-chan time.Time
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

	info     os.FileInfo           // of the open file
	watch    <-chan time.Time      // see Options.Watch
	replaced atomic.Pointer[error] // see Replaced
}

// watchEvery is the time between two looks at the data file's name.
const watchEvery = 2 * time.Second

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

// Replaced returns an error that wraps [ErrReplaced] while the data file's name leads to
// no file or to another one than the one that is open, else nil. What would be written
// then could not be found after a restart, so nothing is.
func (s *Store) Replaced() error {
	if err := s.replaced.Load(); err != nil {
		return *err
	}
	return nil
}

// look compares the file of the data file's name with the one that is open, by device
// and inode, and returns what [Store.Replaced] does from now on.
func (s *Store) look() error {
	now, err := os.Stat(s.path)
	if err == nil && os.SameFile(s.info, now) {
		s.replaced.Store(nil)
		return nil
	}
	err = fmt.Errorf("%w: %s: nothing is written: put the file back, or stop the server and restore a backup", ErrReplaced, s.path)
	s.replaced.Store(&err)
	return err
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
