package main

import (
	"fmt"

	"hobside/internal/document"
)

// problemLines writes a dinner's problems as check prints them, a line for each.
func problemLines(problems []document.Problem) []string {
	var out []string
	for _, p := range problems {
		out = append(out, p.Error())
	}
	return out
}

// A toldError is the problems of a dinner whose answer is printed already. They go to the
// standard error where the answer's format has no place for them.
type toldError struct {
	lines  []string
	failed error // nil when there are only warnings
}

// Error returns why the command failed.
func (e *toldError) Error() string {
	if e.failed == nil {
		return "there are warnings"
	}
	return e.failed.Error()
}

// told returns what is still to say of a dinner's problems: all of them where apart is
// set, and the first error, which means that the answer may be wrong. It is nil for nothing.
func told(problems []document.Problem, apart bool, wrong string) error {
	e := &toldError{}
	if apart {
		e.lines = problemLines(problems)
	}
	for _, p := range problems {
		if p.Severity == document.Error {
			e.failed = fmt.Errorf("%s: %w", wrong, p)
			break
		}
	}
	if e.failed == nil && len(e.lines) == 0 {
		return nil
	}
	return e
}
