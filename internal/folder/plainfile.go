package folder

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"hobside/internal/hub"
)

// maxLines is the largest file of JSON lines that is read, in bytes: far more than
// one dinner or one list of revisions takes.
const maxLines = 64 << 20

// ReadFile returns the text of one card, menu or kitchen that a person named. It
// fails when the name is not that of a regular file, or when the file has more
// bytes than a card may have.
func ReadFile(name string) (string, error) {
	b, err := ReadUpTo(name, hub.MaxText)
	return string(b), err
}

// ReadUpTo returns the bytes of one file that a person named. It fails as [ReadFile] does,
// where the file has more than most bytes.
func ReadUpTo(name string, most int) ([]byte, error) {
	f, err := os.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0) // opening a pipe does not wait for a writer
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, err)
	}
	return readOpen(f, name, most)
}

// CheckPlain returns an error when an entry of a folder is a link or anything else
// that is not a regular file. Name is the entry's path, for the error. Files that
// links point to may be private, and reading a pipe or a device may never end.
func CheckPlain(name string, mode fs.FileMode) error {
	switch {
	case mode.IsRegular():
		return nil
	case mode&fs.ModeSymlink != 0:
		return fmt.Errorf("%s is a link, and links are not followed: put the file itself there, or remove the link; nothing was changed", name)
	}
	return fmt.Errorf("%s is not a regular file: remove it; nothing was changed", name)
}

// readOpen returns the content of an open file and closes it. It fails when the
// file is not a regular one or has more bytes than most.
func readOpen(f *os.File, name string, most int) ([]byte, error) {
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, err
	}
	if err := CheckPlain(name, info.Mode()); err != nil {
		return nil, err
	}
	b, err := io.ReadAll(io.LimitReader(f, int64(most)+1))
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", name, err)
	}
	if len(b) > most {
		return nil, fmt.Errorf("%s has more than the %d bytes that fit: make two of it; nothing was changed", name, most)
	}
	return b, nil
}

// A tree is a folder on disk that is read without following a link and without
// leaving the folder. It is a file system for [Cards].
type tree struct {
	dir  string // as the person named it
	root *os.Root
}

// openTree opens a folder. The caller must close its root.
func openTree(dir string) (*tree, error) {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return nil, fmt.Errorf("there is no folder %s", dir)
	case !info.IsDir():
		return nil, fmt.Errorf("%s is not a folder", dir)
	}
	root, err := os.OpenRoot(dir)
	return &tree{dir: dir, root: root}, err
}

// path returns the path of a name in the tree, for errors.
func (t *tree) path(name string) string { return filepath.Join(t.dir, filepath.FromSlash(name)) }

// read returns the content of a regular file of at most so many bytes. The error
// wraps fs.ErrNotExist when there is none.
func (t *tree) read(name string, most int) ([]byte, error) {
	info, err := t.root.Lstat(name)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", t.path(name), err)
	}
	if err := CheckPlain(t.path(name), info.Mode()); err != nil {
		return nil, err
	}
	f, err := t.root.OpenFile(name, os.O_RDONLY|syscall.O_NONBLOCK, 0)
	if err != nil {
		return nil, fmt.Errorf("cannot read %s: %w", t.path(name), err)
	}
	if now, err := f.Stat(); err != nil || !os.SameFile(info, now) {
		f.Close()
		return nil, fmt.Errorf("%s was replaced while it was read: try again; nothing was changed", t.path(name))
	}
	return readOpen(f, t.path(name), most)
}

// list returns the entries of a folder in the tree, none when there is no such
// folder. It fails when the name is a link.
func (t *tree) list(name string) ([]fs.DirEntry, error) {
	info, err := t.root.Lstat(name)
	switch {
	case os.IsNotExist(err):
		return nil, nil
	case err != nil:
		return nil, err
	case !info.IsDir():
		return nil, CheckPlain(t.path(name), info.Mode())
	}
	return fs.ReadDir(t.root.FS(), name)
}

// Open opens a file for package fs.
func (t *tree) Open(name string) (fs.File, error) { return t.root.FS().Open(name) }

// ReadFile returns the text of a card. It fails for links and other entries that
// are not regular files.
func (t *tree) ReadFile(name string) ([]byte, error) { return t.read(name, hub.MaxText) }

// ReadDir returns the entries of a folder. It leaves out the folders that Export
// writes beside the cards.
func (t *tree) ReadDir(name string) ([]fs.DirEntry, error) {
	all, err := t.list(name)
	if name != "." {
		return all, err
	}
	var out []fs.DirEntry
	for _, d := range all {
		if !d.IsDir() || d.Name() != dinnersDir && d.Name() != formerDinnersDir && d.Name() != revisionsDir {
			out = append(out, d)
		}
	}
	return out, err
}
