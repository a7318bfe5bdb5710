package store_test

import (
	"context"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	bolt "go.etcd.io/bbolt"

	"hobside/internal/store"
)

// BenchmarkThousandDinners opens and checks a data file of a few years: 1,000
// dinners of 300 events each. It reports the file's size.
func BenchmarkThousandDinners(b *testing.B) {
	path := filepath.Join(b.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{})
	require.NoError(b, err)
	for n := range 1000 {
		require.NoError(b, s.Update(func(tx *store.Tx) error {
			for i := range 300 {
				ev := tick(n*300 + i)
				ev.Dinner = fmt.Sprintf("dinner-%d", n)
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

// BenchmarkUpdate is one writer of one event at a time.
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

// BenchmarkWritesAgainstRaw has two hundred writers write five events each, with
// the store and with bbolt's own batches of the same bytes, in turn. The ratio
// is the store's rate divided by bbolt's.
func BenchmarkWritesAgainstRaw(b *testing.B) {
	const writers = 200
	s, err := store.Open(filepath.Join(b.TempDir(), "hobside.db"), store.Options{})
	require.NoError(b, err)
	defer s.Close()
	raw, err := bolt.Open(filepath.Join(b.TempDir(), "raw.db"), 0o600, &bolt.Options{FreelistType: bolt.FreelistMapType})
	require.NoError(b, err)
	defer raw.Close()
	require.NoError(b, raw.Update(func(tx *bolt.Tx) error {
		for _, name := range []string{"log", "byid"} {
			if _, err := tx.CreateBucket([]byte(name)); err != nil {
				return err
			}
		}
		return nil
	}))
	all := func(write func(n int) error) time.Duration {
		began := time.Now()
		var wg sync.WaitGroup
		for w := range writers {
			wg.Go(func() {
				for i := range 5 {
					if err := write(w*5 + i); err != nil {
						b.Error(err)
					}
				}
			})
		}
		wg.Wait()
		return time.Since(began)
	}
	var ours, theirs time.Duration
	rounds := 0
	for b.Loop() {
		from := rounds * writers * 5
		theirs += all(func(n int) error {
			ev := tick(from + n)
			val, err := json.Marshal(map[string]any{"event": ev})
			if err != nil {
				return err
			}
			return raw.Batch(func(tx *bolt.Tx) error {
				log := tx.Bucket([]byte("log"))
				seq, err := log.NextSequence()
				if err != nil {
					return err
				}
				key := binary.BigEndian.AppendUint64(nil, seq)
				return errors.Join(log.Put(key, val), tx.Bucket([]byte("byid")).Put([]byte(ev.ID), key))
			})
		})
		ours += all(func(n int) error { return s.Update(add(tick(from + n))) })
		rounds++
	}
	n := float64(rounds * writers * 5)
	b.ReportMetric(n/ours.Seconds(), "ours/s")
	b.ReportMetric(n/theirs.Seconds(), "raw/s")
	b.ReportMetric(theirs.Seconds()/ours.Seconds(), "ratio")
}
