package store_test

import (
	"context"
	"encoding/binary"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/store"
)

// sample is a small file with a bit of everything, and what it holds.
func sample(t *testing.T) (whole []byte, records []store.Record) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sample.db")
	s, err := store.Open(path, store.Options{})
	require.NoError(t, err)
	base := ""
	for i := range 400 {
		require.NoError(t, s.Update(func(tx *store.Tx) error {
			if i%40 != 0 {
				return tx.AppendEvent(tick(i))
			}
			f, err := tx.AppendFile(file(i, "stock.md", base))
			base = f.Revision
			return err
		}))
	}
	require.NoError(t, s.Update(func(tx *store.Tx) error { return tx.Alias("offer-again", "stock.md", base) }))
	records = all(t, s)
	require.NoError(t, s.Close())
	whole, err = os.ReadFile(path)
	require.NoError(t, err)
	return whole, records
}

// A disk that changes a byte is found out: either the file is refused, or the
// check says so, or the byte was in a page that nothing uses.
func TestNoDamageGoesUnseen(t *testing.T) {
	whole, want := sample(t)
	path := filepath.Join(t.TempDir(), "damaged.db")
	seen := map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		broken := append([]byte(nil), whole...)
		from := rapid.IntRange(0, len(broken)-1).Draw(t, "from")
		if rapid.Bool().Draw(t, "cut off") {
			broken = broken[:from]
		} else {
			for i := range rapid.SampledFrom([]int{1, 1, 1, 64, 4096}).Draw(t, "bytes") {
				if from+i < len(broken) {
					broken[from+i] ^= rapid.Byte().Draw(t, "flip")
				}
			}
		}
		require.NoError(t, os.WriteFile(path, broken, 0o600))
		s, err := store.Open(path, store.Options{})
		if err != nil {
			seen["refused"]++
			return
		}
		defer s.Close()
		if err := s.Check(context.Background()); err != nil {
			assert.True(t, errors.Is(err, store.ErrDamaged), "%v", err)
			seen["found"]++
			return
		}
		require.Equal(t, want, all(t, s))
		seen["whole"]++
	})
	for _, how := range []string{"refused", "found", "whole"} {
		assert.NotZero(t, seen[how], "the test should meet a file that is %s", how)
	}
}

// bbolt follows a ring of pages for ever, so the store must find it first.
func TestARingOfPagesIsRefused(t *testing.T) {
	whole, _ := sample(t)
	const size = 4096
	page := func(b []byte, n int) []byte { return b[n*size : (n+1)*size] }
	rings := 0
	for n := 2; n < len(whole)/size; n++ {
		head := page(whole, n)
		if binary.NativeEndian.Uint64(head) != uint64(n) || binary.NativeEndian.Uint16(head[8:]) != 1 {
			continue // not a branch page
		}
		broken := append([]byte(nil), whole...)
		binary.NativeEndian.PutUint64(page(broken, n)[16+8:], uint64(n)) // its first branch leads to itself
		path := filepath.Join(t.TempDir(), "ring.db")
		require.NoError(t, os.WriteFile(path, broken, 0o600))
		s, err := store.Open(path, store.Options{})
		if err == nil { // a page that nothing uses any more
			assert.NoError(t, s.Check(context.Background()))
			s.Close()
			continue
		}
		assert.ErrorIs(t, err, store.ErrDamaged)
		assert.ErrorContains(t, err, "in use twice")
		rings++
	}
	assert.NotZero(t, rings, "the sample should be large enough to have branch pages")
}

// FuzzOpen hands the store any bytes as a data file.
func FuzzOpen(f *testing.F) {
	path := filepath.Join(f.TempDir(), "seed.db")
	s, err := store.Open(path, store.Options{New: add(tick(1), tick(2))})
	require.NoError(f, err)
	require.NoError(f, s.Close())
	whole, err := os.ReadFile(path)
	require.NoError(f, err)
	f.Add(whole)
	f.Add(whole[:5000])
	f.Add([]byte("# not a data file\n"))
	f.Fuzz(func(t *testing.T, b []byte) {
		path := filepath.Join(t.TempDir(), "fuzz.db")
		require.NoError(t, os.WriteFile(path, b, 0o600))
		s, err := store.Open(path, store.Options{})
		if err != nil {
			return
		}
		defer s.Close()
		if s.Check(context.Background()) == nil {
			all(t, s) // a file that checks can be read
		}
	})
}
