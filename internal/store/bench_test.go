package store_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/store"
)

// BenchmarkThousandSittings shows what a few years of dinners cost: 1,000
// sittings of 300 events each. Bytes of the file are reported.
func BenchmarkThousandSittings(b *testing.B) {
	path := filepath.Join(b.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{})
	require.NoError(b, err)
	for n := range 1000 {
		require.NoError(b, s.Update(func(tx *store.Tx) error {
			for i := range 300 {
				ev := tick(n*300 + i)
				ev.Sitting = fmt.Sprintf("sitting-%d", n)
				if err := tx.AppendEvent(ev); err != nil {
					return err
				}
			}
			return nil
		}))
	}
	require.NoError(b, s.Close())
	info, err := os.Stat(path)
	require.NoError(b, err)
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			s, err := store.Open(path, store.Options{})
			require.NoError(b, err)
			require.NoError(b, s.Close())
		}
		b.ReportMetric(float64(info.Size())/1e6, "MB")
	})
	b.Run("check", func(b *testing.B) {
		s, err := store.Open(path, store.Options{})
		require.NoError(b, err)
		defer s.Close()
		for b.Loop() {
			require.NoError(b, s.Check(context.Background()))
		}
	})
}

func BenchmarkUpdate(b *testing.B) {
	s, err := store.Open(filepath.Join(b.TempDir(), "hobside.db"), store.Options{})
	require.NoError(b, err)
	defer s.Close()
	n := 0
	for b.Loop() {
		n++
		require.NoError(b, s.Update(add(tick(n))))
	}
}
