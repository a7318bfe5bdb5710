//go:build browser

package main

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// before is the profile of a phone that has the app's files and no data of a server.
var before struct {
	once    sync.Once
	profile string
}

func TestMain(m *testing.M) {
	code := m.Run()
	os.RemoveAll(before.profile)
	os.Exit(code)
}

// visitedBefore returns that profile. It is made once, because it takes a browser longer
// to load the app and to compile its engine than most tests take.
func visitedBefore(t testing.TB) string {
	t.Helper()
	before.once.Do(func() {
		dir, err := os.MkdirTemp("", "hobside-phone")
		require.NoError(t, err)
		r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
		p := newUnusedPhone(t)
		p.visit(hash(r, "s/boathouse/plan"))
		p.see("#plan .task")
		p.ready()
		p.close()
		require.NoError(t, r.stop())
		require.NoError(t, os.CopyFS(dir, os.DirFS(p.profile)))
		for _, data := range []string{"IndexedDB", "Local Storage", "Session Storage", "WebStorage", "Cookies"} {
			require.NoError(t, os.RemoveAll(filepath.Join(dir, "Default", data)))
		}
		before.profile = dir
	})
	require.NotEmpty(t, before.profile, "the first phone did not come up")
	return before.profile
}
