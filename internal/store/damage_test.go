package store_test

import (
	"bytes"
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

// sample returns a small data file with every kind of record, and its records.
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

// TestChangedBytesAreNoticed changes bytes of a data file, or cuts it off. Then
// Open refuses the file, or Check reports the damage, or the bytes were in a page
// that is not in use and all records are as before.
func TestChangedBytesAreNoticed(t *testing.T) {
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
		assert.NotZero(t, seen[how], "the test needs a file that is %s", how)
	}
}

// bbolt would follow a ring of pages for ever, so the store must refuse it first.
func TestRingOfPagesIsRefused(t *testing.T) {
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
		binary.NativeEndian.PutUint64(page(broken, n)[16+8:], uint64(n)) // its first branch leads to its own page
		path := filepath.Join(t.TempDir(), "ring.db")
		require.NoError(t, os.WriteFile(path, broken, 0o600))
		s, err := store.Open(path, store.Options{})
		if err == nil { // the page is not in use any more
			assert.NoError(t, s.Check(context.Background()))
			s.Close()
			continue
		}
		assert.ErrorIs(t, err, store.ErrDamaged)
		assert.ErrorContains(t, err, "in use twice")
		rings++
	}
	assert.NotZero(t, rings, "the sample must be large enough to have branch pages")
}

// FuzzOpen opens a damaged data file. With raw set the file is edits itself;
// otherwise it is a whole file of which some bytes are changed, five bytes of
// edits for each change, four of position and one of value, and which is cut off
// after size bytes unless size is 0.
//
// The store refuses the file, or Check reports the damage, or every record can be
// read and is as it was.
func FuzzOpen(f *testing.F) {
	whole, want := fuzzSample(f)
	edit := func(at int, to byte) []byte { return append(binary.NativeEndian.AppendUint32(nil, uint32(at)), to) }
	f.Add([]byte{}, uint32(0), false)
	f.Add([]byte{}, uint32(5000), false)
	f.Add([]byte("# not a data file\n"), uint32(0), true)
	for page := range len(whole) / 4096 {
		for _, at := range []int{0, 8, 10, 12, 16, 20, 24, 28, 64, 1000} {
			f.Add(edit(page*4096+at, byte(page)), uint32(0), false)
		}
	}
	path := filepath.Join(f.TempDir(), "fuzz.db")
	f.Fuzz(func(t *testing.T, edits []byte, size uint32, raw bool) {
		b := edits
		if !raw {
			b = bytes.Clone(whole)
			for ; len(edits) >= 5; edits = edits[5:] {
				b[int(binary.NativeEndian.Uint32(edits))%len(b)] = edits[4]
			}
			if size != 0 && int(size) < len(b) {
				b = b[:size]
			}
		}
		os.Remove(path)
		require.NoError(t, os.WriteFile(path, b, 0o600))
		s, err := store.Open(path, store.Options{})
		if err != nil {
			require.Contains(t, err.Error(), path, "the error names the file")
			return
		}
		defer s.Close()
		if err := s.Check(context.Background()); err != nil {
			require.ErrorIs(t, err, store.ErrDamaged)
			return
		}
		if have := all(t, s); !raw {
			require.Equal(t, want, have)
		}
	})
}

// fuzzSample returns a data file of few pages, so that many runs fit in a minute,
// and its records.
func fuzzSample(f *testing.F) (whole []byte, records []store.Record) {
	path := filepath.Join(f.TempDir(), "sample.db")
	s, err := store.Open(path, store.Options{New: func(tx *store.Tx) error {
		_, err := tx.AppendFile(file(1, "stock.md", ""))
		return errors.Join(err, tx.AddDevice(store.Device{ID: "one"}, "secret"), add(tick(1), tick(2))(tx))
	}})
	require.NoError(f, err)
	records = all(f, s)
	require.NoError(f, s.Close())
	whole, err = os.ReadFile(path)
	require.NoError(f, err)
	return whole, records
}
