package main

import (
	"fmt"
	"os"
	"runtime/debug"
)

// caught runs a command and turns a panic into an error. The panic and its stack go
// into a new file in the system's temporary folder, which the error names.
func caught(do func() error) (err error) {
	defer func() {
		cause := recover()
		if cause == nil {
			return
		}
		const mistake = "the program made a mistake of its own and stopped"
		f, failed := os.CreateTemp("", "hobside-mistake-*.txt")
		if failed != nil {
			err = fmt.Errorf("%s; what it was could not be written down: %v", mistake, failed)
			return
		}
		fmt.Fprintf(f, "%v\n\n%s", cause, debug.Stack())
		f.Close()
		err = fmt.Errorf("%s; what it was is in %s: please send that file to those who make Hobside", mistake, f.Name())
	}()
	return do()
}
