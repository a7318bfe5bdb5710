package store_test

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
)

// TestPublishSyncsTheFolder: the new name must be on disk before Publish says that
// all is well.
func TestPublishSyncsTheFolder(t *testing.T) {
	dir := t.TempDir()
	aside, path := filepath.Join(dir, "aside"), filepath.Join(dir, "backup.db")
	require.NoError(t, os.WriteFile(aside, []byte("x"), 0o600))
	broken := errors.New("the disk does not answer")
	var opened []string
	open := func(name string, _ int, _ os.FileMode) (*os.File, error) {
		opened = append(opened, name)
		return nil, broken
	}
	assert.ErrorIs(t, store.Publish(aside, path, store.Options{OpenFile: open}), broken)
	assert.Equal(t, []string{dir}, opened)
	assert.ErrorIs(t, store.Publish(aside, path, store.Options{}), fs.ErrExist)
}

func TestRestoreRefusesLinks(t *testing.T) {
	dir := t.TempDir()
	data, backup, link := filepath.Join(dir, "a.db"), filepath.Join(dir, "b.db"), filepath.Join(dir, "link.db")
	for _, p := range []string{data, backup} {
		s, err := store.Open(p, store.Options{})
		require.NoError(t, err)
		require.NoError(t, s.Close())
	}
	for _, to := range []string{data, backup, filepath.Join(dir, "none")} {
		require.NoError(t, os.Symlink(to, link))
		_, err := store.Restore(t.Context(), backup, link, time.Now(), store.Options{})
		assert.ErrorContains(t, err, "is a link")
		_, err = store.Restore(t.Context(), link, data, time.Now(), store.Options{})
		assert.ErrorContains(t, err, "is a link")
		require.NoError(t, os.Remove(link))
	}
	left, err := filepath.Glob(filepath.Join(dir, "*"))
	require.NoError(t, err)
	assert.ElementsMatch(t, []string{data, backup}, left, "nothing was changed")
}
