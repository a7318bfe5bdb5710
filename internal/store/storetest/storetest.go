// Package storetest opens data files for tests. What it opens is checked, whole,
// when the test ends: a test of anything above the store is a test of the store.
package storetest

import (
	"context"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
)

// TB is what is asked of a test: *testing.T, *testing.B and rapid's alike,
// because rapid's has no folder and a fuzz run's no name of its own.
type TB interface {
	require.TestingT
	Helper()
	Cleanup(func())
}

// New opens a new data file in a folder that goes away with the test.
func New(t testing.TB) *store.Store {
	t.Helper()
	return Open(t, filepath.Join(t.TempDir(), "hobside.db"), store.Options{})
}

// Open opens a data file. When the test ends it is checked and closed.
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

// Check checks a store that is open; one that the test has closed is opened
// again for it, since it must be whole then too.
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
