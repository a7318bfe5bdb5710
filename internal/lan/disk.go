package lan

import (
	"io"
	"io/fs"
	"os"
	"runtime"
)

// A disk is what the authority needs of a file system. Tests cut its power.
type disk interface {
	read(name string) (b []byte, mode fs.FileMode, err error)
	create(name string) (file, error) // readable by this user only; fails when it exists
	rename(from, to string) error
	remove(name string) error
	syncNames(dir string) error // writes a folder's list of names to disk
}

// A file is a new file of a disk.
type file interface {
	io.WriteCloser
	Sync() error
}

// system is the disk of the operating system.
type system struct{}

func (system) read(name string) (b []byte, mode fs.FileMode, err error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, 0, err
	}
	b, err = os.ReadFile(name)
	return b, info.Mode(), err
}

// create makes a file with its final rights, so that at no moment others can read it.
func (system) create(name string) (file, error) {
	return os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
}

func (system) rename(from, to string) error { return os.Rename(from, to) }
func (system) remove(name string) error     { return os.Remove(name) }

func (system) syncNames(dir string) error {
	if runtime.GOOS == "windows" { // it has no such call
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return err
	}
	defer d.Close()
	return d.Sync()
}

// writeWhole writes a new file under another name, and gives it its own name when it is
// on disk. A power cut leaves either no file of that name or the whole one.
func writeWhole(d disk, name, dir string, content []byte) error {
	aside := name + ".new"
	d.remove(aside) // of a start that the power cut ended; there may be none
	f, err := d.create(aside)
	if err != nil {
		return err
	}
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	if err == nil {
		err = d.rename(aside, name)
	}
	if err != nil {
		d.remove(aside)
		return err
	}
	return d.syncNames(dir)
}
