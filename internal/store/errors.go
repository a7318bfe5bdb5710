package store

import (
	"errors"
	"fmt"
	"io/fs"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"

	berrors "go.etcd.io/bbolt/errors"
)

// Reasons for which a data file can't be used. Errors of this package wrap one
// of these wherever a caller may need to know the reason.
var (
	ErrLocked   = errors.New("another process has it open")
	ErrDamaged  = errors.New("the data file is damaged")
	ErrFormat   = errors.New("the data file is of another release")
	ErrFull     = errors.New("there is no room left for the data file")
	ErrClosed   = errors.New("the data file is closed")
	ErrPanic    = errors.New("a fault in this program")
	ErrReplaced = errors.New("the data file was deleted or replaced while it was open")
	ErrFailed   = errors.New("the disk failed") // nothing more is written until the file is opened again
)

// openError returns an error that says why a file can't be opened and what to do.
func openError(path string, err error) error {
	switch {
	case errors.Is(err, berrors.ErrTimeout):
		return fmt.Errorf("open %s: %w: stop that one, or choose another file with --data", path, ErrLocked)
	case errors.Is(err, berrors.ErrInvalid), errors.Is(err, berrors.ErrChecksum), errors.Is(err, berrors.ErrVersionMismatch), errors.Is(err, ErrDamaged),
		strings.HasPrefix(err.Error(), "file size too small"): // bbolt has no value for this error
		return fmt.Errorf("open %s: %w or not a data file of Hobside (%v): nothing was changed in it; put the newest backup in its place", path, ErrDamaged, err)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("open %s: this user may not read and write it", path)
	}
	return fmt.Errorf("open %s: %w", path, err)
}

// isFull reports whether a write failed because there was no room. It compares
// texts too, because bbolt passes some errors on as text only.
func isFull(err error) bool {
	for _, full := range []error{syscall.ENOSPC, syscall.EDQUOT, syscall.EFBIG, berrors.ErrMaxSizeReached} {
		if errors.Is(err, full) || strings.Contains(err.Error(), full.Error()) {
			return true
		}
	}
	return false
}

// guard runs fn and turns a panic into an error. bbolt trusts its pages: one that the
// disk changed makes it panic or read outside the file, and neither may end the server.
// Such an error wraps [ErrDamaged]. A panic of our own code is a fault of the program,
// not of the file, and wraps [ErrPanic].
func guard(fn func() error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		r := recover()
		if r == nil {
			return
		}
		p := &Panic{Cause: r, Stack: debug.Stack()}
		if _, fault := r.(interface{ Addr() uintptr }); fault || panickedIn("go.etcd.io/bbolt") {
			err = fmt.Errorf("%w: one of its pages can't be read%w", ErrDamaged, p)
		} else {
			err = fmt.Errorf("%w%w", ErrPanic, p)
		}
	}()
	return fn()
}

// panickedIn reports whether the function that panicked belongs to a module. It is to be
// called by the deferred function that recovers.
func panickedIn(module string) bool {
	pcs := make([]uintptr, 64)
	frames := runtime.CallersFrames(pcs[:runtime.Callers(1, pcs)])
	panicked := false
	for {
		f, more := frames.Next()
		switch {
		case f.Function == "runtime.gopanic":
			panicked = true
		case panicked && !strings.HasPrefix(f.Function, "runtime."):
			return strings.HasPrefix(f.Function, module)
		}
		if !more {
			return false
		}
	}
}

// A Panic is the part of an error that a panic caused. It adds the panic's words to the
// error, unless they are Go's own, which tell a person nothing.
type Panic struct {
	Cause any
	Stack []byte
}

func (p *Panic) Error() string {
	if _, ok := p.Cause.(runtime.Error); ok {
		return ""
	}
	return fmt.Sprintf(" (%v)", p.Cause)
}
