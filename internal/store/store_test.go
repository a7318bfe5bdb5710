package store_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	bolt "go.etcd.io/bbolt"

	"hobside/internal/dinner"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

func tick(n int) dinner.Event {
	return dinner.Event{
		ID: fmt.Sprintf("event-%06d", n), Dinner: "boathouse", Device: "phone-a", Kind: dinner.KindTick,
		Stamp: dinner.Stamp{Wall: 1_800_000_000_000 + int64(n)}, On: fmt.Sprintf("brown-chicken-stock#1/step/%d", n%7+1), Done: n%2 == 0,
	}
}

func file(n int, name, base string) store.File {
	return store.File{ID: fmt.Sprintf("offer-%06d", n), Name: name, Base: base, Text: fmt.Sprintf("# Stock\n\nTry %d.\n", n), Device: "phone-b", At: 1_800_000_000_000}
}

func add(events ...dinner.Event) func(*store.Tx) error {
	return func(tx *store.Tx) error {
		for _, ev := range events {
			if err := tx.AppendEvent(ev); err != nil {
				return err
			}
		}
		return nil
	}
}

// all returns all records. It reads them in pages of three.
func all(t require.TestingT, s *store.Store) (records []store.Record) {
	for more, after := true, uint64(0); more; {
		require.NoError(t, s.View(func(tx *store.Tx) (err error) {
			page := tx.Since(after, 3, 1<<20)
			require.Empty(t, page.Damaged)
			records = append(records, page.Records...)
			more, after = page.More, page.Next
			return nil
		}))
	}
	return records
}

// head returns the newest revision of a file.
func head(t *testing.T, tx *store.Tx, name string) string {
	t.Helper()
	revision, err := tx.Head(name)
	require.NoError(t, err)
	return revision
}

func TestRecordsAreThereAfterReopening(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{})
	require.NoError(t, err)
	epoch := s.Epoch()
	require.NoError(t, s.Update(add(tick(1), tick(2))))
	var first store.File
	require.NoError(t, s.Update(func(tx *store.Tx) (err error) {
		if first, err = tx.AppendFile(file(1, "stock.md", "")); err != nil {
			return err
		}
		_, err = tx.AppendFile(file(2, "stock.md", first.Revision))
		return err
	}))
	before := all(t, s)
	require.NoError(t, s.Close())
	require.NoError(t, s.Close(), "a second Close does nothing")
	assert.ErrorIs(t, s.Update(add(tick(3))), store.ErrClosed)
	assert.ErrorIs(t, s.View(func(*store.Tx) error { return nil }), store.ErrClosed)

	s = storetest.Open(t, path, store.Options{})
	assert.Equal(t, epoch, s.Epoch())
	after := all(t, s)
	assert.Equal(t, before, after)
	require.Len(t, after, 4)
	assert.Equal(t, tick(2), *after[1].Event)
	assert.Equal(t, "# Stock\n\nTry 1.\n", after[2].File.Text)
	require.NoError(t, s.View(func(tx *store.Tx) error {
		assert.EqualValues(t, 4, tx.Seq())
		assert.Equal(t, after[3].File.Revision, head(t, tx, "stock.md"))
		assert.Equal(t, "", head(t, tx, "soup.md"))
		assert.True(t, tx.Has("stock.md", first.Revision))
		assert.False(t, tx.Has("soup.md", first.Revision), "it is a revision of another file")
		assert.True(t, tx.Knows(first.Revision))
		assert.False(t, tx.Knows(""))
		assert.True(t, tx.IsBase("stock.md", first.Revision))
		assert.False(t, tx.IsBase("soup.md", first.Revision))
		assert.False(t, tx.IsBase("stock.md", head(t, tx, "stock.md")))
		newest, err := tx.Newest()
		assert.Equal(t, tick(2).Stamp, newest)
		return err
	}))
}

func TestRecordIsFoundByID(t *testing.T) {
	s := storetest.New(t)
	f := file(1, "stock.md", "")
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		kept, err := tx.AppendFile(f)
		if err != nil {
			return err
		}
		return errors.Join(tx.AppendEvent(tick(1)), tx.Alias("offer-again", "stock.md", kept.Revision))
	}))
	require.NoError(t, s.View(func(tx *store.Tx) error {
		for _, id := range []string{"offer-000001", "offer-again"} {
			r, err := tx.FindOffer(id)
			require.NoError(t, err)
			require.NotNil(t, r.File, id)
			assert.Equal(t, f.Text, r.File.Text)
			assert.EqualValues(t, 1, r.Seq)
		}
		r, err := tx.FindEvent("event-000001")
		require.NoError(t, err)
		assert.Equal(t, tick(1), *r.Event)
		r, err = tx.FindEvent("event-000002")
		assert.Zero(t, r)
		return err
	}))
	require.NoError(t, s.View(func(tx *store.Tx) error {
		kept, err := tx.File("stock.md", head(t, tx, "stock.md"))
		require.NoError(t, err)
		assert.Equal(t, f.Text, kept.Text)
		assert.Equal(t, f.At, kept.At)
		_, err = tx.File("soup.md", head(t, tx, "stock.md"))
		assert.Error(t, err, "it is a revision of another file")
		return nil
	}))
	assert.Error(t, s.Update(func(tx *store.Tx) error { return tx.Alias("offer-3", "stock.md", "no such revision") }))
	assert.Error(t, s.Update(add(tick(1))), "an id can be used once")
}

func TestSinceReturnsPages(t *testing.T) {
	s := storetest.New(t)
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		for i := range 10 {
			if err := tx.AppendEvent(tick(i)); err != nil {
				return err
			}
		}
		big := file(1, "stock.md", "")
		big.Text = string(make([]byte, 5000))
		_, err := tx.AppendFile(big)
		return errors.Join(err, tx.AppendEvent(tick(11)))
	}))
	for _, tt := range []struct {
		name       string
		after      uint64
		max, bytes int
		want       []uint64
		more       bool
	}{
		{"all", 0, 500, 1 << 20, []uint64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, false},
		{"a number of records", 3, 2, 1 << 20, []uint64{4, 5}, true},
		{"the last few", 9, 3, 1 << 20, []uint64{10, 11, 12}, false},
		{"after the last", 12, 3, 1 << 20, nil, false},
		{"after a number that does not exist", 99, 3, 1 << 20, nil, false},
		{"a text fills a page", 9, 500, 3000, []uint64{10, 11}, true},
		{"a page has at least one record", 10, 500, 1, []uint64{11}, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			require.NoError(t, s.View(func(tx *store.Tx) error {
				page := tx.Since(tt.after, tt.max, tt.bytes)
				var got []uint64
				for _, r := range page.Records {
					got = append(got, r.Seq)
				}
				assert.Equal(t, tt.want, got)
				assert.Equal(t, tt.more, page.More)
				if len(got) > 0 {
					assert.Equal(t, got[len(got)-1], page.Next)
				}
				return nil
			}))
		})
	}
}

func TestOpenErrorSaysWhatIsWrong(t *testing.T) {
	dir := t.TempDir()
	at := func(name string) string { return filepath.Join(dir, name) }
	write := func(name string, b []byte) string {
		require.NoError(t, os.WriteFile(at(name), b, 0o600))
		return at(name)
	}
	foreign := func(name string, put map[string]string) string {
		db, err := bolt.Open(at(name), 0o600, nil)
		require.NoError(t, err)
		require.NoError(t, db.Update(func(tx *bolt.Tx) error {
			b, err := tx.CreateBucket([]byte("meta"))
			for k, v := range put {
				err = errors.Join(err, b.Put([]byte(k), []byte(v)))
			}
			return err
		}))
		require.NoError(t, db.Close())
		return at(name)
	}
	held := storetest.Open(t, at("held.db"), store.Options{})
	whole, err := os.ReadFile(held.Path())
	require.NoError(t, err)

	for _, tt := range []struct {
		name, path string
		is         error
		says       string
	}{
		{"locked", held.Path(), store.ErrLocked, "stop that one, or choose another file with --data"},
		{"no folder", at("none/hobside.db"), nil, "there is no folder"},
		{"a folder", dir, nil, "it is not a file"},
		{"empty", write("empty.db", nil), store.ErrDamaged, "it is empty"},
		{"a text", write("card.db", []byte("# Brown chicken stock\n")), store.ErrDamaged, "put the newest backup in its place"},
		{"zeros", write("zeros.db", make([]byte, 1<<16)), store.ErrDamaged, "damaged"},
		{"cut off after a page", write("cut1.db", whole[:4096]), store.ErrDamaged, "damaged"},
		{"cut off after two pages", write("cut2.db", whole[:8192]), store.ErrDamaged, "damaged"},
		{"cut off before the last page", write("cut3.db", whole[:12288]), store.ErrDamaged, "put the newest backup in its place"},
		{"of another program", foreign("foreign.db", nil), store.ErrDamaged, "its format number is missing"},
		{"of a newer release", foreign("newer.db", map[string]string{"format": "5"}), store.ErrFormat, "use the newer release"},
		{"of no release", foreign("older.db", map[string]string{"format": "0"}), store.ErrFormat, "which no release has written"},
		{"without a bucket", foreign("short.db", map[string]string{"format": "1"}), store.ErrDamaged, `its bucket "log" is missing`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, err := store.Open(tt.path, store.Options{Timeout: 1}) // do not wait for the lock
			if !assert.Error(t, err) {
				s.Close()
				return
			}
			assert.ErrorContains(t, err, tt.says)
			if tt.is != nil {
				assert.ErrorIs(t, err, tt.is)
			}
		})
	}
}

func TestFailedCreateLeavesNoFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "hobside.db")
	enough := errors.New("the demo can't be read")
	_, err := store.Open(path, store.Options{New: func(tx *store.Tx) error {
		require.NoError(t, tx.AppendEvent(tick(1)))
		return enough
	}})
	assert.ErrorIs(t, err, enough)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, left, "no temporary file is left")

	s := storetest.Open(t, path, store.Options{New: add(tick(1))})
	assert.Len(t, all(t, s), 1)
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "only its owner may read it")
	left, err = os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1)
}

func TestExistingFileIsNotFilledAgain(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{New: add(tick(1))})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	s = storetest.Open(t, path, store.Options{New: func(*store.Tx) error { return errors.New("not new") }})
	assert.Len(t, all(t, s), 1)
}

func TestBackupDuringWritesIsConsistent(t *testing.T) {
	s := storetest.New(t)
	require.NoError(t, s.Update(add(tick(0))))
	path := filepath.Join(t.TempDir(), "backup.db")
	out, err := os.Create(path)
	require.NoError(t, err)
	started, stopped := make(chan struct{}), make(chan error, 1)
	go func() { // writes during the backup
		var err error
		for i := 1; i < 40 && err == nil; i++ {
			err = s.Update(add(tick(i)))
			if i == 3 {
				close(started)
			}
		}
		stopped <- err
	}()
	<-started
	require.NoError(t, s.Backup(out))
	require.NoError(t, out.Close())
	require.NoError(t, <-stopped)

	b := storetest.Open(t, path, store.Options{})
	have := all(t, b)
	assert.GreaterOrEqual(t, len(have), 4, "every event acknowledged before the backup")
	assert.Equal(t, all(t, s)[:len(have)], have, "the log at one moment, without gaps")
	assert.NotEqual(t, s.Epoch(), b.Epoch(), "phones must notice when it replaces the file")
	left, err := filepath.Glob(s.Path() + ".*")
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestCheckStopsWithItsContext(t *testing.T) {
	s := storetest.New(t)
	require.NoError(t, s.Update(add(tick(1))))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	assert.ErrorIs(t, s.Check(ctx), context.Canceled)
}
