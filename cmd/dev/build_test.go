package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestInliningNamesPackagesOfTheEngine fails for a name that is no package of the
// engine: the compiler says nothing about a flag that fits none.
func TestInliningNamesPackagesOfTheEngine(t *testing.T) {
	c := exec.Command("go", "list", "-deps", "../engine")
	c.Env = append(os.Environ(), forPhone...)
	out, err := c.Output()
	require.NoError(t, err)
	linked := strings.Fields(string(out))
	for _, name := range append(append([]string{}, notInlined...), inlined...) {
		if below, ok := strings.CutSuffix(name, "..."); ok {
			assert.Contains(t, string(out), below, "build.go")
			continue
		}
		assert.Contains(t, linked, name, "build.go")
	}
}
