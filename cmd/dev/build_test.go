package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNotInlinedPackagesAreInTheEngine fails for a name that is no package of
// the engine (any more): the compiler ignores such a flag without a word.
func TestNotInlinedPackagesAreInTheEngine(t *testing.T) {
	c := exec.Command("go", "list", "-deps", "../engine")
	c.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	out, err := c.Output()
	require.NoError(t, err)
	linked := strings.Fields(string(out))
	for _, name := range notInlined {
		assert.Contains(t, linked, name, "notInlined in build.go names a package that the engine doesn't have")
	}
}
