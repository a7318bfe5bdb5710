package store_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// A model holds what a store should, in the simplest form.
type model struct {
	records []store.Record
	heads   map[string]string
	newest  dinner.Stamp
}

// TestStoreAgainstModel runs random changes on a store and on a model of it, and
// compares them after each. What followers are told must be the same as well.
func TestStoreAgainstModel(t *testing.T) {
	dir := t.TempDir()
	run := 0
	rapid.Check(t, func(t *rapid.T) {
		run++
		path := filepath.Join(dir, fmt.Sprintf("%d.db", run))
		t.Cleanup(func() { os.Remove(path) })
		var told []store.Record // to a follower, since the file is new
		var chains []store.Chain
		open := func() *store.Store {
			s := storetest.Open(t, path, store.Options{})
			from, err := s.Follow(func(written []store.Written) {
				for _, w := range written {
					told = append(told, w.Record)
					chains = append(chains, w.Chain)
					if w.Event != nil {
						want, err := json.Marshal(w.Event)
						assert.NoError(t, err)
						assert.Equal(t, string(want), string(w.EventJSON))
					} else {
						assert.Nil(t, w.EventJSON)
					}
				}
			})
			require.NoError(t, err)
			require.EqualValues(t, len(told), from)
			return s
		}
		s := open()
		m := model{heads: map[string]string{}}
		n := 0
		changes := func(count int) (func(*store.Tx) error, []store.Record) {
			var records []store.Record
			for range count {
				n++
				if rapid.Bool().Draw(t, "event") {
					ev := tick(n)
					ev.Stamp.Wall = rapid.Int64Range(1, 50).Draw(t, "wall")
					records = append(records, store.Record{Event: &ev})
					continue
				}
				f := file(rapid.IntRange(1, 4).Draw(t, "text"), rapid.SampledFrom([]string{"stock.md", "soup.md"}).Draw(t, "name"), "")
				f.ID = rapid.SampledFrom([]string{"", fmt.Sprintf("offer-%06d", n)}).Draw(t, "id")
				f.Revision = dinner.Revision(f.Text)
				records = append(records, store.Record{File: &f})
			}
			return func(tx *store.Tx) (err error) {
				for _, r := range records {
					if r.Event != nil {
						err = errors.Join(err, tx.AppendEvent(*r.Event))
					} else {
						_, ferr := tx.AppendFile(*r.File)
						err = errors.Join(err, ferr)
					}
				}
				return err
			}, records
		}
		t.Repeat(map[string]func(*rapid.T){
			"write": func(t *rapid.T) {
				fn, records := changes(rapid.IntRange(1, 5).Draw(t, "count"))
				require.NoError(t, s.Update(fn))
				for _, r := range records {
					r.Seq = uint64(len(m.records) + 1)
					m.records = append(m.records, r)
					if r.File != nil {
						m.heads[r.File.Name] = r.File.Revision
					} else if r.Event.Stamp.Compare(m.newest) > 0 {
						m.newest = r.Event.Stamp
					}
				}
			},
			"fail": func(t *rapid.T) {
				fn, _ := changes(2)
				no := errors.New("no")
				require.ErrorIs(t, s.Update(func(tx *store.Tx) error { return errors.Join(fn(tx), no) }), no)
			},
			"reopen": func(t *rapid.T) {
				require.NoError(t, s.Close())
				s = open()
			},
			"": func(t *rapid.T) {
				require.Equal(t, m.records, all(t, s))
				require.Equal(t, m.records, told, "followers")
				require.NoError(t, s.View(func(tx *store.Tx) error {
					require.EqualValues(t, len(m.records), tx.Seq())
					for name, want := range m.heads {
						head, err := tx.Head(name)
						require.NoError(t, err)
						require.Equal(t, want, head)
					}
					for i, want := range chains {
						chain, ok := tx.Chain(uint64(i + 1))
						require.True(t, ok)
						require.Equal(t, want, chain)
					}
					newest, err := tx.Newest()
					require.Equal(t, m.newest, newest)
					return err
				}))
			},
		})
	})
}
