package web_test

import (
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/static"
)

// TestEveryModuleIsPreloaded: each module that main.js imports, directly or not, has
// a modulepreload line in index.html, so that a cold start fetches all at once.
func TestEveryModuleIsPreloaded(t *testing.T) {
	page, err := fs.ReadFile(static.Files, "index.html")
	require.NoError(t, err)
	var preloaded []string
	for _, m := range regexp.MustCompile(`rel="modulepreload" href="/([^"]+)"`).FindAllStringSubmatch(string(page), -1) {
		preloaded = append(preloaded, m[1])
	}
	imports := regexp.MustCompile(`(?m)^(?:import|export) [^;]*?from ?['"](\.[^'"]+)['"]|from ?["'](\./[^"']+)["']`)
	seen := map[string]bool{}
	var visit func(name string)
	visit = func(name string) {
		if seen[name] {
			return
		}
		seen[name] = true
		src, err := fs.ReadFile(static.Files, name)
		require.NoError(t, err, name)
		for _, m := range imports.FindAllStringSubmatch(string(src), -1) {
			visit(path.Join(path.Dir(name), m[1]+m[2]))
		}
	}
	visit("app/main.js")
	delete(seen, "app/main.js") // it is a script of the page
	var wanted []string
	for name := range seen {
		wanted = append(wanted, name)
	}
	assert.ElementsMatch(t, wanted, preloaded)
	assert.False(t, strings.Contains(string(page), "<style") || strings.Contains(string(page), " style="), "the policy allows no style in the page")
}
