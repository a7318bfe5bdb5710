package store

import (
	"errors"
	"fmt"
	"strconv"

	bolt "go.etcd.io/bbolt"
)

// format is how the buckets are laid out. A release opens what it writes, and
// what is older by the steps below; what is newer it refuses.
const format = 2

// upgrades bring a file from one format to the next, from 1 to 2 first. Each is
// one transaction with the word that it happened: a power cut leaves the file in
// the one format or in the other.
var upgrades = []func(*bolt.Tx) error{
	func(tx *bolt.Tx) error { // 1 -> 2: who is let in
		_, err := tx.CreateBucketIfNotExists(bucketDevices)
		return err
	},
}

// upgrade brings a file up to the format of this release. It must be the first
// thing done to it after its pages were found whole.
func (s *Store) upgrade() error {
	have, err := s.formatOf()
	if err != nil {
		return err
	}
	switch {
	case have > format:
		return fmt.Errorf("open %s: %w: its format is %d and this release reads up to %d: use the newer release; nothing was changed in it", s.path, ErrFormat, have, format)
	case have < 1:
		return fmt.Errorf("open %s: %w: its format is %d, from before the first release: nothing was changed in it", s.path, ErrFormat, have)
	}
	for ; have < format; have++ {
		err := guard(func() error {
			return s.db.Update(func(tx *bolt.Tx) error {
				return errors.Join(upgrades[have-1](tx), tx.Bucket(bucketMeta).Put(keyFormat, []byte(strconv.Itoa(have+1))))
			})
		})
		if err != nil {
			return fmt.Errorf("bring %s from format %d to %d: %w", s.path, have, have+1, err)
		}
	}
	return nil
}

func (s *Store) formatOf() (have int, err error) {
	err = s.View(func(tx *Tx) error {
		meta := tx.tx.Bucket(bucketMeta)
		if meta == nil {
			return fmt.Errorf("%w: it is a bbolt file, but not of Hobside", ErrDamaged)
		}
		have, err = strconv.Atoi(string(meta.Get(keyFormat)))
		if err != nil {
			return fmt.Errorf("%w: it does not say its format", ErrDamaged)
		}
		return nil
	})
	return have, err
}
