package store

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
)

// asides are the names of this process's files that are not whole yet.
var asides sync.Map

// Aside makes a new file beside path, for a content that gets the name path, or is
// thrown away, when it is whole. Its name has the purpose, one word, and the number of
// this process, by which [Sweep] finds what a killed process left. The caller must call
// [Discard] in the end.
func Aside(path, purpose string) (*os.File, error) {
	f, err := os.CreateTemp(filepath.Dir(path), fmt.Sprintf("%s.%s-%d-*", filepath.Base(path), purpose, os.Getpid()))
	if err != nil {
		return nil, err
	}
	asides.Store(absolute(f.Name()), true)
	return f, nil
}

// Discard closes a file of [Aside] and removes its first name.
func Discard(f *os.File) {
	f.Close()
	os.Remove(f.Name())
	asides.Delete(absolute(f.Name()))
}

// absolute returns a name by which one file is known everywhere in this process.
func absolute(name string) string {
	if full, err := filepath.Abs(name); err == nil {
		return full
	}
	return name
}

// AsideDir makes a folder for copies of a data file among the system's temporary files,
// and removes those that killed processes left there. The caller must call remove.
func AsideDir(purpose string) (dir string, remove func(), err error) {
	prefix := "hobside-" + purpose
	names, _ := os.ReadDir(os.TempDir())
	for _, n := range names {
		if rest, ok := strings.CutPrefix(n.Name(), prefix); ok && n.IsDir() {
			removeLeft(filepath.Join(os.TempDir(), n.Name()), purpose+rest, purpose)
		}
	}
	dir, err = os.MkdirTemp("", fmt.Sprintf("%s-%d-*", prefix, os.Getpid()))
	if err != nil {
		return "", nil, err
	}
	asides.Store(absolute(dir), true)
	return dir, func() {
		os.RemoveAll(dir)
		asides.Delete(absolute(dir))
	}, nil
}

// Sweep removes the files that Aside made for path in processes that have ended without
// a [Discard]. It leaves those of living processes, and every file whose name does not
// say which process made it.
func Sweep(path string) {
	names, _ := os.ReadDir(filepath.Dir(path))
	for _, n := range names {
		rest, ok := strings.CutPrefix(n.Name(), filepath.Base(path)+".")
		if !ok || !n.Type().IsRegular() {
			continue
		}
		for _, purpose := range []string{"new", "backup", "restore", "part"} {
			removeLeft(filepath.Join(filepath.Dir(path), n.Name()), rest, purpose)
		}
	}
}

// removeLeft removes a file or folder when tag, the end of its name, has the purpose and
// the number of a process that has left it.
func removeLeft(name, tag, purpose string) {
	parts := strings.Split(tag, "-")
	if len(parts) != 3 || parts[0] != purpose {
		return
	}
	pid, err := strconv.Atoi(parts[1])
	if _, random := strconv.ParseUint(parts[2], 10, 64); err != nil || random != nil || pid <= 0 || inUse(name, pid) {
		return
	}
	os.RemoveAll(name)
}

// inUse reports whether the process that made a file may still write it. The number of
// a process that has ended may have gone to this one, which knows its own files.
func inUse(name string, pid int) bool {
	if pid != os.Getpid() {
		return alive(pid)
	}
	_, mine := asides.Load(absolute(name))
	return mine
}
