package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"

	bolt "go.etcd.io/bbolt"
)

// create makes a data file under another name, fills it, and renames it when it
// is whole. A power cut leaves either no data file or a whole one.
func create(path string, opts Options) error {
	dir := filepath.Dir(path)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return fmt.Errorf("cannot make %s: there is no folder %s", path, dir)
	}
	aside, err := Aside(path, "new")
	if err != nil {
		return fmt.Errorf("cannot make %s: %w", path, err)
	}
	aside.Close()
	defer Discard(aside)
	if err := fill(aside.Name(), opts); err != nil {
		return fmt.Errorf("cannot make %s: %w", path, err)
	}
	return publish(aside.Name(), path, opts)
}

// fill makes the buckets of a new file and runs opts.New on it. What it wrote is
// on disk when it returns nil: bbolt syncs each commit.
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
		tx := &Tx{tx: btx}
		if err := errors.Join(btx.Bucket(bucketMeta).Put(keyFormat, []byte(strconv.Itoa(format))), tx.put(bucketMeta, keyEpoch, newEpoch())); err != nil {
			return err
		}
		if opts.New == nil {
			return nil
		}
		return opts.New(tx)
	})
	return errors.Join(err, db.Close())
}

// publish gives a whole file its name. When another process has made a file of
// that name meanwhile, that one stays and publish returns nil.
func publish(aside, path string, opts Options) error {
	err := Publish(aside, path, opts)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	return err
}

// Publish gives a whole file a second name, the one people know it by, and writes
// the new name to disk. It never replaces a file: the error wraps fs.ErrExist when
// the name is taken.
func Publish(aside, path string, opts Options) error {
	err := os.Link(aside, path) // unlike os.Rename, os.Link never replaces a file
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = os.Rename(aside, path) // a file system without hard links
	}
	if err != nil {
		return fmt.Errorf("cannot make %s: %w", path, err)
	}
	if err := syncDir(filepath.Dir(path), opts); err != nil {
		return fmt.Errorf("%s is written, but its name may be lost in a power cut: %w", path, err)
	}
	return nil
}

// CheckNoLink returns an error when a name is that of a symbolic link. A command
// that replaces a file would replace the link, and leave the file it points to.
func CheckNoLink(path string) error {
	info, err := os.Lstat(path)
	if err == nil && info.Mode()&fs.ModeSymlink != 0 {
		return fmt.Errorf("%s is a link: name the file it points to; nothing was changed", path)
	}
	return nil
}

// syncDir writes a folder's list of names to disk, so that a new name is still
// there after a power cut.
func syncDir(path string, opts Options) error {
	open := opts.OpenFile
	if open == nil {
		open = os.OpenFile
	}
	dir, err := open(path, os.O_RDONLY, 0)
	if err != nil {
		return err
	}
	defer dir.Close()
	return dir.Sync()
}
