package store_test

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
)

// TestReplacedFileIsNoticed: a data file that was deleted, or in whose place another one
// is, takes no write, and the store says so at the next look even when nobody writes. Put
// back, it goes on.
func TestReplacedFileIsNoticed(t *testing.T) {
	for name, replace := range map[string]func(t *testing.T, path string){
		"deleted": func(t *testing.T, path string) {},
		"a copy in its place": func(t *testing.T, path string) {
			b, err := os.ReadFile(path + ".away")
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(path, b, 0o600))
		},
		"a folder in its place": func(t *testing.T, path string) { require.NoError(t, os.Mkdir(path, 0o700)) },
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "hobside.db")
			watch := make(chan time.Time)
			s, err := store.Open(path, store.Options{Watch: watch})
			require.NoError(t, err)
			defer s.Close()
			look := func() { // the second is taken when the first is done
				watch <- time.Time{}
				watch <- time.Time{}
			}
			require.NoError(t, s.Update(add(tick(1))))
			look()
			require.NoError(t, s.Replaced())

			require.NoError(t, os.Rename(path, path+".away"))
			replace(t, path)
			look()
			assert.ErrorIs(t, s.Replaced(), store.ErrReplaced)
			err = s.Update(add(tick(2)))
			assert.ErrorIs(t, err, store.ErrReplaced)
			assert.ErrorContains(t, err, "restore a backup")

			require.NoError(t, os.RemoveAll(path))
			require.NoError(t, os.Rename(path+".away", path))
			require.NoError(t, s.Update(add(tick(2))))
			assert.NoError(t, s.Replaced())
			assert.Len(t, all(t, s), 2, "nothing was written meanwhile")
		})
	}
}

// TestWriteAfterReplacementIsRefused: a write looks too, before the next look of the clock.
func TestWriteAfterReplacementIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{Watch: make(chan time.Time)})
	require.NoError(t, err)
	defer s.Close()
	require.NoError(t, os.Remove(path))
	assert.ErrorIs(t, s.Update(add(tick(1))), store.ErrReplaced)
}
