package house

import (
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// topLevel is what the top level of the project has, beside names that begin with a dot.
// Commands build into bin, which is not kept.
var topLevel = []string{"bin", "cmd", "content", "internal", "static", "testdata", "go.mod", "go.sum", "DEVELOPERS.md", "README.md"}

// TestTopLevelHasNothingElse finds a program that "go build" left there, before somebody
// commits it.
func TestTopLevelHasNothingElse(t *testing.T) {
	entries, err := os.ReadDir("../..")
	require.NoError(t, err)
	for _, e := range entries {
		assert.True(t, slices.Contains(topLevel, e.Name()) || strings.HasPrefix(e.Name(), "."), "%s does not belong at the top level", e.Name())
	}
}
