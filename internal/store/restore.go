package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// Restore replaces a data file with a backup. It first copies the backup, checks
// all of it and gives it a new epoch; when any of this fails, nothing has
// changed. It refuses symbolic links. The old data file is kept beside the new one under the name that
// Restore returns, "" when there was no old file. No process may have the data
// file open.
//
// The paired devices are taken from the old file when they can be read there,
// so that a phone that was revoked after the backup does not get its access back.
func Restore(ctx context.Context, backup, path string, now time.Time, opts Options) (kept string, err error) {
	if err := errors.Join(CheckNoLink(backup), CheckNoLink(path)); err != nil {
		return "", fmt.Errorf("restore: %w", err)
	}
	if same(backup, path) {
		return "", fmt.Errorf("restore %s: that is the data file itself; name a backup", backup)
	}
	devices, release, err := hold(path, opts)
	if err != nil {
		return "", err
	}
	defer release()
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
	if err := prepare(ctx, aside.Name(), devices, opts); err != nil {
		return "", fmt.Errorf("restore from %s: nothing was changed: %w", backup, err)
	}
	if exists(path) {
		if kept, err = keepAside(path, now); err != nil {
			return "", fmt.Errorf("restore %s: can't keep the old file: %w", path, err)
		}
	}
	if err := os.Rename(aside.Name(), path); err != nil {
		return kept, fmt.Errorf("restore %s: %w", path, err)
	}
	return kept, syncDir(dir, opts)
}

// keepAside gives the old data file a second name, with the time in it, and
// returns that name. The first name stays where hard links exist, so that there
// is a data file at every moment.
func keepAside(path string, now time.Time) (kept string, err error) {
	kept = path + ".before-" + now.Format("20060102-150405")
	for n := 2; exists(kept); n++ {
		kept = fmt.Sprintf("%s.before-%s-%d", path, now.Format("20060102-150405"), n)
	}
	if os.Link(path, kept) == nil {
		return kept, nil
	}
	return kept, os.Rename(path, kept)
}

// A deviceRow is an entry of the bucket of devices.
type deviceRow struct {
	key []byte
	d   Device
}

// hold opens the data file, so that no server can, and returns its devices: nil
// when there is no file or they can't be read. It fails when a process has the
// file open. The caller must call release.
func hold(path string, opts Options) (devices *[]deviceRow, release func(), err error) {
	if !exists(path) {
		return nil, func() {}, nil
	}
	s, err := Open(path, opts)
	if errors.Is(err, ErrLocked) {
		return nil, nil, fmt.Errorf("%w: a backup can replace it only when no process has it open", err)
	}
	if err != nil { // it is damaged, which is why people restore
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

// prepare checks a copy of a backup, gives it the devices of the old data file,
// unless these are nil, and a new epoch.
func prepare(ctx context.Context, path string, devices *[]deviceRow, opts Options) error {
	s, err := Open(path, opts)
	if err != nil {
		return err
	}
	err = s.Check(ctx)
	if err == nil && devices != nil {
		err = s.Update(func(tx *Tx) error { return tx.replaceDevices(*devices) })
	}
	if err := errors.Join(err, s.Close()); err != nil {
		return err
	}
	return renewEpoch(path)
}

// replaceDevices deletes all devices and stores others.
func (tx *Tx) replaceDevices(rows []deviceRow) error {
	tx.dirty = true
	if err := tx.tx.DeleteBucket(bucketDevices); err != nil {
		return err
	}
	if _, err := tx.tx.CreateBucket(bucketDevices); err != nil {
		return err
	}
	for _, row := range rows {
		if err := tx.putDevice(row.key, row.d); err != nil {
			return err
		}
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

// same reports whether two names are of one file.
func same(a, b string) bool {
	x, err := os.Stat(a)
	if err != nil {
		return false
	}
	y, err := os.Stat(b)
	return err == nil && os.SameFile(x, y)
}
