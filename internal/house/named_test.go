package house

import (
	"io/fs"
	"os"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestNamedTestsExist looks up every test that DEVELOPERS.md names: `web.TestX` in
// the folder web, a plain `TestX` in any folder. The tables of protections and of
// browser tests must stay true when a test is renamed.
func TestNamedTestsExist(t *testing.T) {
	guide, err := os.ReadFile("../../DEVELOPERS.md")
	require.NoError(t, err)
	tests := testNames(t)
	named := regexp.MustCompile("`(?:([a-z]+)\\.)?(Test[A-Z]\\w*)`").FindAllStringSubmatch(string(guide), -1)
	assert.Greater(t, len(named), 50, "DEVELOPERS.md should name tests")
	for _, m := range named {
		assert.True(t, tests[m[1]][m[2]], "DEVELOPERS.md names %s, which is not a test", strings.Trim(m[0], "`"))
	}
}

// testNames returns the names of the module's test functions by the name of their
// folder, and all of them under "".
func testNames(t *testing.T) map[string]map[string]bool {
	root := os.DirFS("../..")
	function := regexp.MustCompile(`(?m)^func (Test[A-Z]\w*)\(`)
	names := map[string]map[string]bool{"": {}}
	require.NoError(t, fs.WalkDir(root, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(p, "_test.go") {
			return err
		}
		src, err := fs.ReadFile(root, p)
		folder := path.Base(path.Dir(p))
		if names[folder] == nil {
			names[folder] = map[string]bool{}
		}
		for _, m := range function.FindAllStringSubmatch(string(src), -1) {
			names[folder][m[1]], names[""][m[1]] = true, true
		}
		return err
	}))
	return names
}
