package store

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	bolt "go.etcd.io/bbolt"
)

// Backup writes a whole data file, as it is at one moment, while the store is
// in use. It has an epoch of its own: once it is put in this file's place, phones
// that were further on notice, and hand back what it lacks.
func (s *Store) Backup(w io.Writer) error {
	aside, err := os.CreateTemp(filepath.Dir(s.path), filepath.Base(s.path)+".backup-*")
	if err != nil {
		return fmt.Errorf("backup of %s: %w", s.path, err)
	}
	defer os.Remove(aside.Name())
	defer aside.Close()
	err = s.View(func(tx *Tx) error {
		_, err := tx.tx.WriteTo(aside)
		return err
	})
	if err == nil {
		err = renew(aside.Name())
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

// renew gives a data file that nobody has open another epoch.
func renew(path string) error {
	db, err := bolt.Open(path, 0o600, &bolt.Options{Timeout: time.Second, FreelistType: bolt.FreelistMapType})
	if err != nil {
		return err
	}
	err = db.Update(func(tx *bolt.Tx) error { return tx.Bucket(bucketMeta).Put(keyEpoch, newEpoch()) })
	return errors.Join(err, db.Close())
}
