package rcpsp

import (
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The solver can be copied out of this project and used alone: it imports only the
// listed packages of the standard library, and none with a clock, files, network
// or random numbers. Its readers and its benchmark may import it, and nothing else
// of the project.
func TestPackageCanBeImportedAlone(t *testing.T) {
	allowed := []string{"errors", "fmt", "math", "slices", "sort", "strings"}
	files := sources(t, ".")
	require.Greater(t, len(files), 20)
	for _, file := range files {
		for _, path := range importsOf(t, file) {
			assert.Contains(t, allowed, path, file)
		}
	}
	const self = "hobside/internal/plan/rcpsp"
	for _, file := range append(sources(t, "instances"), sources(t, "bench")...) {
		for _, path := range importsOf(t, file) {
			inside := path == self || strings.HasPrefix(path, self+"/")
			assert.True(t, inside || !strings.HasPrefix(path, "hobside/") && !strings.Contains(path, "."), "%s imports %s", file, path)
		}
	}
}

// sources returns the files of a package without its tests.
func sources(t *testing.T, dir string) []string {
	files, err := filepath.Glob(filepath.Join(dir, "*.go"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return slices.DeleteFunc(files, func(f string) bool { return strings.HasSuffix(f, "_test.go") })
}

func importsOf(t *testing.T, file string) []string {
	f, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	require.NoError(t, err)
	var paths []string
	for _, spec := range f.Imports {
		path, err := strconv.Unquote(spec.Path.Value)
		require.NoError(t, err)
		paths = append(paths, path)
	}
	return paths
}
