//go:build unix

package store

import (
	"errors"
	"syscall"
)

// alive reports whether a process runs. Signal 0 is sent to nobody, and only checks
// (kill(2)).
func alive(pid int) bool { return !errors.Is(syscall.Kill(pid, 0), syscall.ESRCH) }
