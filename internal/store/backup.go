package store

import (
	"errors"
	"fmt"
	"io"
	"time"

	bolt "go.etcd.io/bbolt"
)

// Backup writes a whole data file to w, as it is at one moment, while the store
// is in use. The backup has a new epoch: when it replaces this file, phones that
// have read further notice, and send what the backup lacks.
func (s *Store) Backup(w io.Writer) error {
	aside, err := Aside(s.path, "backup")
	if err != nil {
		return fmt.Errorf("backup of %s: %w", s.path, err)
	}
	defer Discard(aside)
	err = s.View(func(tx *Tx) error {
		_, err := tx.tx.WriteTo(aside)
		return err
	})
	if err == nil {
		err = renewEpoch(aside.Name())
	}
	if err == nil {
		_, err = aside.Seek(0, io.SeekStart)
	}
	if err == nil {
		_, err = io.Copy(w, aside)
	}
	if err != nil {
		return fmt.Errorf("backup of %s: %w", s.path, err)
	}
	return nil
}

// renewEpoch gives a data file a new epoch. The file must be closed.
func renewEpoch(path string) error {
	db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: time.Second, FreelistType: bolt.FreelistMapType})
	if err != nil {
		return err
	}
	err = db.Update(func(tx *bolt.Tx) error { return (&Tx{tx: tx}).put(bucketMeta, keyEpoch, newEpoch()) })
	return errors.Join(err, db.Close())
}
