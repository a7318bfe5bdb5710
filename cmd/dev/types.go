package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"

	"hobside/cmd/dev/pagetypes"
)

// writeTypes writes the page's declarations of what the engine takes and
// answers, and the name of their form. It does not write files that are up to
// date.
func writeTypes() error {
	types, err := pagetypes.Generate(".")
	if err != nil {
		return fmt.Errorf("generating %s: %w", pagetypes.Path, err)
	}
	return errors.Join(writeChanged(pagetypes.Path, types), writeChanged(pagetypes.FormPath, pagetypes.Form(types)))
}

func writeChanged(path string, want []byte) error {
	if have, err := os.ReadFile(path); err == nil && bytes.Equal(have, want) {
		return nil
	}
	fmt.Println("dev: writing", path)
	return os.WriteFile(path, want, 0o644)
}
