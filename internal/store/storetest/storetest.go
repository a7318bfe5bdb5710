// Package storetest opens data files for tests. Enter by [New] or [Open]. Each
// file is checked completely when its test ends, so that every test of a package
// above the store is a test of the store as well.
package storetest

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
)

// TB is the part of testing.TB that [Open] needs. rapid's T has this part only.
type TB interface {
	require.TestingT
	Helper()
	Cleanup(func())
}

// New opens a new data file in a temporary folder of the test.
func New(t testing.TB) *store.Store {
	t.Helper()
	return Open(t, filepath.Join(t.TempDir(), "hobside.db"), store.Options{})
}

// Open opens a data file, which is checked and closed when the test ends.
func Open(t TB, path string, opts store.Options) *store.Store {
	t.Helper()
	s, err := store.Open(path, opts)
	require.NoError(t, err)
	t.Cleanup(func() {
		Check(t, s)
		assert.NoError(t, s.Close())
	})
	return s
}

// Check checks a store completely. A store that the test has closed is opened
// again for the check.
func Check(t TB, s *store.Store) {
	t.Helper()
	err := s.View(func(*store.Tx) error { return nil })
	if err == nil {
		assert.NoError(t, s.Check(context.Background()), "the data file after the test")
		return
	}
	again, err := store.Open(s.Path(), store.Options{})
	if assert.NoError(t, err, "opening the data file after the test") {
		assert.NoError(t, again.Check(context.Background()), "the data file after the test")
		assert.NoError(t, again.Close())
	}
}
