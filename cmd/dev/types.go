package main

import (
	"bytes"
	"fmt"
	"os"

	"hobside/cmd/dev/pagetypes"
)

// writeTypes writes the page's declarations of what the engine takes and
// answers. It leaves the file alone when it is up to date.
func writeTypes() error {
	want, err := pagetypes.Generate(".")
	if err != nil {
		return fmt.Errorf("generating %s: %w", pagetypes.Path, err)
	}
	if have, err := os.ReadFile(pagetypes.Path); err == nil && bytes.Equal(have, want) {
		return nil
	}
	fmt.Println("dev: writing", pagetypes.Path)
	return os.WriteFile(pagetypes.Path, want, 0o644)
}
