//go:build !unix

package store

import "os"

// unlock does nothing: on these systems closing a file releases its lock.
func unlock(*os.File) {}
