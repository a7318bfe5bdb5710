package store

import (
	"encoding/json"
	"fmt"

	bolt "go.etcd.io/bbolt"

	"hobside/internal/dinner"
)

// A Tx reads the store as it is at one moment and, in [Store.Update], changes
// it. It is valid until the function it was given to returns.
type Tx struct {
	store   *Store // nil while a new file is filled
	tx      *bolt.Tx
	dirty   bool      // there is something to commit
	written []Written // records appended so far
	size    int       // of them in bytes
}

// View runs fn on the store as it is at one moment, and returns fn's error. It
// fails with [ErrClosed] after Close, and with [ErrDamaged] when a damaged page
// makes bbolt panic. An error that wraps ErrDamaged is kept for [Store.Damage].
func (s *Store) View(fn func(*Tx) error) error {
	return s.note(guard(func() error {
		tx, err := s.db.Begin(false)
		if err != nil {
			return fmt.Errorf("%w: %v", ErrClosed, err)
		}
		defer tx.Rollback()
		return fn(&Tx{store: s, tx: tx})
	}))
}

// Seq returns the newest record's sequence number, 0 when there is no record.
func (tx *Tx) Seq() uint64 { return tx.tx.Bucket(bucketLog).Sequence() }

// Epoch returns the epoch that is in the file, "" when it is damaged; see
// [Store.Epoch].
func (tx *Tx) Epoch() string {
	epoch, _ := tx.get(bucketMeta, keyEpoch)
	return string(epoch)
}

// Newest returns the latest stamp of all events in the log. Where the disk has changed
// it, Newest reads the log for it.
func (tx *Tx) Newest() (dinner.Stamp, error) {
	s, ok := tx.newest()
	if !ok {
		tx.scan(0, func(_ uint64, _ int, r Record, err error) bool {
			if err == nil && r.Event != nil && r.Event.Stamp.Compare(s) > 0 {
				s = r.Event.Stamp
			}
			return true
		})
	}
	return s, nil
}

// newest returns the stamp that the meta bucket has; ok is false when it is damaged.
func (tx *Tx) newest() (s dinner.Stamp, ok bool) {
	b, err := tx.get(bucketMeta, keyNewest)
	if b == nil {
		return s, err == nil
	}
	return s, json.Unmarshal(b, &s) == nil
}

// putNewest stores the newest stamp.
func (tx *Tx) putNewest(s dinner.Stamp) error {
	b, err := json.Marshal(s)
	if err != nil {
		return err
	}
	return tx.put(bucketMeta, keyNewest, b)
}
