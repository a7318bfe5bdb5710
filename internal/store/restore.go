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
// changed. It refuses symbolic links. The old data file is kept beside the new one. No
// process may have the data file open.
//
// The paired devices are taken from the old file, so that a phone that was revoked after
// the backup does not get its access back. Where the old file can't be read, no device
// is let in: nothing tells which ones were revoked.
func Restore(ctx context.Context, backup, path string, now time.Time, opts Options) (done Restored, err error) {
	if err := errors.Join(CheckNoLink(backup), CheckNoLink(path)); err != nil {
		return done, fmt.Errorf("restore: %w", err)
	}
	if same(backup, path) {
		return done, fmt.Errorf("restore %s: that is the data file itself; name a backup", backup)
	}
	devices, unreadable, release, err := hold(path, opts)
	if err != nil {
		return done, err
	}
	defer release()
	dir := filepath.Dir(path)
	aside, err := Aside(path, "restore")
	if err != nil {
		return done, fmt.Errorf("restore %s: %w", path, err)
	}
	aside.Close()
	defer Discard(aside)
	if err := copyLocked(backup, aside.Name(), opts); err != nil {
		return done, fmt.Errorf("restore from %s: %w", backup, err)
	}
	if err := prepare(ctx, aside.Name(), devices, opts); err != nil {
		return done, fmt.Errorf("restore from %s: nothing was changed: %w", backup, err)
	}
	if exists(path) {
		if done.Kept, err = keepAside(path, now); err != nil {
			return Restored{}, fmt.Errorf("restore %s: can't keep the old file: %w", path, err)
		}
	}
	if err := os.Rename(aside.Name(), path); err != nil {
		return done, fmt.Errorf("restore %s: %w", path, err)
	}
	done.NobodyIn = unreadable
	return done, syncDir(dir, opts)
}

// A Restored is what [Restore] did.
type Restored struct {
	Kept     string // name under which the old file is kept, "" when there was none
	NobodyIn error  // why no device is let in, nil when the old file's devices are
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
// when there is no file. Where they can't be read, it returns none and says why in
// unreadable; a device that is damaged is left out. It fails when a process has the
// file open. The caller must call release.
func hold(path string, opts Options) (devices *[]deviceRow, unreadable error, release func(), err error) {
	if !exists(path) {
		return nil, nil, func() {}, nil
	}
	s, err := Open(path, opts)
	if errors.Is(err, ErrLocked) {
		return nil, nil, nil, fmt.Errorf("%w: a backup can replace it only when no process has it open", err)
	}
	rows := []deviceRow{}
	if err != nil { // it is damaged, which is why people restore
		return &rows, err, func() {}, nil
	}
	unreadable = s.View(func(tx *Tx) error {
		tx.eachDevice(func(k []byte, d Device) {
			rows = append(rows, deviceRow{append([]byte(nil), k...), d})
		})
		return nil
	})
	if unreadable != nil {
		rows = nil
	}
	return &rows, unreadable, func() { s.Close() }, nil
}

// prepare checks a copy of a backup, gives it the devices of the old data file,
// unless there is no old file and they are nil, and a new epoch.
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
