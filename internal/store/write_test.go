package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

func note(id string) dinner.Event {
	return dinner.Event{ID: id, Dinner: "boathouse", Device: "phone-a", Kind: dinner.KindNote, Text: "more salt", Stamp: dinner.Stamp{Wall: 1}}
}

// open opens a data file, which is closed and checked when the test ends.
func open(t *testing.T, path string, opts Options) *Store {
	t.Helper()
	s, err := Open(path, opts)
	require.NoError(t, err)
	t.Cleanup(func() {
		s.Close()
		again, err := Open(path, Options{})
		if assert.NoError(t, err) {
			assert.NoError(t, again.Check(context.Background()))
			assert.NoError(t, again.Close())
		}
	})
	return s
}

func fresh(t *testing.T) string { return filepath.Join(t.TempDir(), "hobside.db") }

func ids(t *testing.T, s *Store) (got []string) {
	t.Helper()
	require.NoError(t, s.View(func(tx *Tx) error {
		for _, r := range tx.Since(0, 1<<20, 1<<30).Records {
			got = append(got, r.ID())
		}
		return nil
	}))
	return got
}

func TestQueuedWritesShareOneTransaction(t *testing.T) {
	s := open(t, fresh(t), Options{})
	var together []*write
	txs := map[int]int{}
	for i := range 50 {
		together = append(together, &write{done: make(chan error, 1), fn: func(tx *Tx) error {
			txs[tx.tx.ID()]++
			return tx.AppendEvent(note(fmt.Sprintf("note-%04d", i)))
		}})
	}
	s.together(together)
	for _, w := range together {
		assert.NoError(t, <-w.done)
	}
	assert.Len(t, txs, 1)
	assert.Len(t, ids(t, s), 50)
}

func TestFailedWriteLeavesOthersInItsTransaction(t *testing.T) {
	s := open(t, fresh(t), Options{})
	refused := errors.New("refused")
	for name, bad := range map[string]func(*Tx) error{
		"fails":  func(tx *Tx) error { return errors.Join(tx.AppendEvent(note(t.Name()+"-bad")), refused) },
		"panics": func(tx *Tx) error { tx.AppendEvent(note(t.Name() + "-bad")); panic("a damaged page") },
	} {
		t.Run(name, func(t *testing.T) {
			var together []*write
			for i := range 7 {
				w := &write{done: make(chan error, 1), fn: func(tx *Tx) error { return tx.AppendEvent(note(fmt.Sprint(name, "-note-", i))) }}
				if i == 3 {
					w.fn = bad
				}
				together = append(together, w)
			}
			given := append([]*write(nil), together...)
			s.together(together)
			for i, w := range given {
				err := <-w.done
				if i == 3 {
					assert.Error(t, err)
				} else {
					assert.NoError(t, err, "write %d", i)
				}
			}
			for _, id := range ids(t, s) {
				assert.NotContains(t, id, "bad")
			}
		})
	}
	assert.Len(t, ids(t, s), 12)
}

func TestConcurrentWritesAreAllThere(t *testing.T) {
	s := open(t, fresh(t), Options{})
	var wg sync.WaitGroup
	for w := range 20 {
		wg.Go(func() {
			for i := range 10 {
				assert.NoError(t, s.Update(func(tx *Tx) error { return tx.AppendEvent(note(fmt.Sprintf("note-%d-%d", w, i))) }))
			}
		})
	}
	wg.Wait()
	assert.Len(t, ids(t, s), 200)
}

func TestCloseAnswersEveryWriter(t *testing.T) {
	path := fresh(t)
	s := open(t, path, Options{})
	var mu sync.Mutex
	var acked []string
	var wg sync.WaitGroup
	for w := range 8 {
		wg.Go(func() {
			for i := 0; ; i++ {
				id := fmt.Sprintf("note-%d-%d", w, i)
				if err := s.Update(func(tx *Tx) error { return tx.AppendEvent(note(id)) }); err != nil {
					assert.ErrorIs(t, err, ErrClosed)
					return
				}
				mu.Lock()
				acked = append(acked, id)
				if len(acked) == 40 {
					go s.Close()
				}
				mu.Unlock()
			}
		})
	}
	wg.Wait()
	require.NoError(t, s.Close())
	again, err := Open(path, Options{})
	require.NoError(t, err)
	defer again.Close()
	assert.ElementsMatch(t, acked, ids(t, again), "exactly the acknowledged events")
}

func TestUnchangedUpdateDoesNotCommit(t *testing.T) {
	s := open(t, fresh(t), Options{})
	require.NoError(t, s.Update(func(tx *Tx) error { return tx.AppendEvent(note("note-0001")) }))
	var before, after int
	require.NoError(t, s.Update(func(tx *Tx) error { before = tx.tx.ID(); return nil }))
	require.NoError(t, s.Update(func(tx *Tx) error { after = tx.tx.ID(); return nil }))
	assert.Equal(t, before, after, "nothing was committed between them")
}

// full writes until the store is full and returns the ids that were acknowledged.
func full(t *testing.T, s *Store) []string {
	t.Helper()
	var acked []string
	for i := range 10_000 {
		id := fmt.Sprintf("note-%05d", i)
		err := s.Update(func(tx *Tx) error {
			ev := note(id)
			ev.Text = strings.Repeat("a long note ", 300)
			return tx.AppendEvent(ev)
		})
		if err != nil {
			require.ErrorIs(t, err, ErrFull)
			assert.ErrorContains(t, err, "free some space")
			return acked
		}
		acked = append(acked, id)
	}
	t.Fatal("never full")
	return nil
}

func TestFullDiskKeepsAcknowledgedEvents(t *testing.T) {
	s := open(t, fresh(t), Options{MaxSize: 1 << 18})
	acked := full(t, s)
	require.NotEmpty(t, acked)
	assert.Equal(t, acked, ids(t, s))
	assert.Error(t, s.Update(func(tx *Tx) error {
		ev := note("note-again")
		ev.Text = strings.Repeat("a long note ", 300)
		return tx.AppendEvent(ev)
	}), "still full")

	s.writing.Lock()
	s.db.MaxSize = 0 // there is room again
	s.writing.Unlock()
	require.NoError(t, s.Update(func(tx *Tx) error { return tx.AppendEvent(note("note-after")) }))
	assert.Equal(t, append(acked, "note-after"), ids(t, s))
}

func TestFailedDiskStopsAllWrites(t *testing.T) {
	path := fresh(t)
	var files []*os.File
	s := open(t, path, Options{OpenFile: func(name string, flag int, mode os.FileMode) (*os.File, error) {
		f, err := os.OpenFile(name, flag, mode)
		files = append(files, f)
		return f, err
	}})
	require.NoError(t, s.Update(func(tx *Tx) error { return tx.AppendEvent(note("note-0001")) }))
	require.NoError(t, files[len(files)-1].Close()) // every later write to the disk fails
	for range 2 {
		err := s.Update(func(tx *Tx) error { return tx.AppendEvent(note("note-0002")) })
		assert.ErrorIs(t, err, ErrFailed)
		assert.ErrorContains(t, err, "check the disk")
	}
	assert.Equal(t, []string{"note-0001"}, ids(t, s), "earlier events can still be read")
	s.Close()
	again, err := Open(path, Options{})
	require.NoError(t, err)
	defer again.Close()
	assert.Equal(t, []string{"note-0001"}, ids(t, again))
}
