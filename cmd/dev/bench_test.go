package main

import (
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestEveryRowOfTheBudgetsHasABenchmark fails for a row whose pattern matches no
// benchmark of its package: go test says nothing about such a pattern.
func TestEveryRowOfTheBudgetsHasABenchmark(t *testing.T) {
	declared := regexp.MustCompile(`(?m)^func Benchmark(\w+)\(`)
	for _, b := range benches {
		pattern, found := regexp.MustCompile(b.pattern), false
		files, err := filepath.Glob(filepath.Join("../..", b.room, "*_test.go"))
		require.NoError(t, err)
		for _, name := range files {
			text, err := os.ReadFile(name)
			require.NoError(t, err)
			for _, m := range declared.FindAllSubmatch(text, -1) {
				found = found || pattern.Match(m[1])
			}
		}
		assert.True(t, found, "%s: no benchmark in %s matches %q", b.name, b.room, b.pattern)
	}
}
