//go:build unix

package store

import (
	"os"
	"syscall"
)

// unlock releases the lock of a file that bbolt had locked and mapped when it
// panicked. Closing the file is not enough: the mapping keeps the open file, and
// with it the lock (flock(2): "associated with an open file description").
func unlock(f *os.File) { syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }
