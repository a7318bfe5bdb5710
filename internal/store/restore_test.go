package store_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

var noon = time.Date(2027, 6, 12, 12, 0, 0, 0, time.UTC)

// closed makes a data file with a number of ticks and some devices, and closes it.
func closed(t *testing.T, ticks int, devices ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "hobside.db")
	s, err := store.Open(path, store.Options{})
	require.NoError(t, err)
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		for _, d := range devices {
			if err := tx.AddDevice(store.Device{ID: d, Name: d, Role: "cook"}, "secret of "+d); err != nil {
				return err
			}
		}
		for n := range ticks {
			if err := tx.AppendEvent(tick(n)); err != nil {
				return err
			}
		}
		return nil
	}))
	require.NoError(t, s.Close())
	return path
}

func backupOf(t *testing.T, path string) string {
	t.Helper()
	s, err := store.Open(path, store.Options{})
	require.NoError(t, err)
	defer s.Close()
	var b bytes.Buffer
	require.NoError(t, s.Backup(&b))
	to := filepath.Join(t.TempDir(), "backup.db")
	require.NoError(t, os.WriteFile(to, b.Bytes(), 0o600))
	return to
}

func names(t *testing.T, s *store.Store) []string {
	t.Helper()
	out := []string{}
	require.NoError(t, s.View(func(tx *store.Tx) error {
		all, err := tx.Devices()
		for _, d := range all {
			out = append(out, d.Name)
		}
		return err
	}))
	return out
}

func TestRestoredBackupKeepsRevokedDevicesOut(t *testing.T) {
	path := closed(t, 3, "cook", "lost phone")
	backup := backupOf(t, path)
	s, err := store.Open(path, store.Options{})
	require.NoError(t, err)
	was := s.Epoch()
	require.NoError(t, s.Update(func(tx *store.Tx) error { return tx.RemoveDevice("lost phone") }))
	require.NoError(t, s.Update(add(tick(3))))
	require.NoError(t, s.Close())

	done, err := store.Restore(context.Background(), backup, path, noon, store.Options{})
	require.NoError(t, err)
	kept := path + ".before-20270612-120000"
	assert.Equal(t, store.Restored{Kept: kept}, done)
	again, err := store.Restore(context.Background(), backup, path, noon, store.Options{})
	require.NoError(t, err)
	assert.Equal(t, kept+"-2", again.Kept, "a kept file is never overwritten")

	s = storetest.Open(t, path, store.Options{})
	assert.Len(t, all(t, s), 3, "the records at the time of the backup")
	assert.NotEqual(t, was, s.Epoch(), "phones must notice the restore")
	assert.Equal(t, []string{"cook"}, names(t, s), "a revoked device does not get its access back")
	old := storetest.Open(t, kept, store.Options{})
	assert.Len(t, all(t, old), 4, "the old file is kept")
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	left, err := filepath.Glob(path + ".restore-*")
	require.NoError(t, err)
	assert.Empty(t, left)
}

func TestRestoreReplacesMissingOrDamagedFile(t *testing.T) {
	backup := backupOf(t, closed(t, 2, "cook"))
	path := filepath.Join(t.TempDir(), "hobside.db")
	done, err := store.Restore(context.Background(), backup, path, noon, store.Options{})
	require.NoError(t, err)
	assert.Zero(t, done)
	assert.Equal(t, []string{"cook"}, names(t, storetest.Open(t, path, store.Options{})))

	broken := filepath.Join(t.TempDir(), "hobside.db")
	require.NoError(t, os.WriteFile(broken, []byte("lightning struck"), 0o600))
	done, err = store.Restore(context.Background(), backup, broken, noon, store.Options{})
	require.NoError(t, err)
	was, err := os.ReadFile(done.Kept)
	require.NoError(t, err)
	assert.Equal(t, "lightning struck", string(was), "a damaged file is evidence and is kept")
	assert.ErrorIs(t, done.NobodyIn, store.ErrDamaged)
	s := storetest.Open(t, broken, store.Options{})
	assert.Len(t, all(t, s), 2)
	assert.Empty(t, names(t, s), "nothing tells which devices were revoked after the backup")
}

// TestRefusedRestoreChangesNothing: the data file stays the same to the byte,
// whatever is wrong with the backup.
func TestRefusedRestoreChangesNothing(t *testing.T) {
	path := closed(t, 3)
	good := backupOf(t, path)
	whole, err := os.ReadFile(good)
	require.NoError(t, err)
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	dir := t.TempDir()
	write := func(name string, b []byte) string {
		p := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(p, b, 0o600))
		return p
	}
	flipped := bytes.ReplaceAll(whole, []byte("boathouse"), []byte("coathouse")) // in pages that are not in use, too
	require.NotEqual(t, whole, flipped)
	held := storetest.New(t)
	for _, tt := range []struct{ name, backup, says string }{
		{"missing", filepath.Join(dir, "none.db"), "there is no file"},
		{"a folder", dir, "is not a file"},
		{"empty", write("empty.db", nil), "damaged"},
		{"a text", write("card.db", []byte("# Stock\n")), "damaged"},
		{"cut off", write("cut.db", whole[:len(whole)/2]), "damaged"},
		{"a letter changed", write("flip.db", flipped), "damaged"},
		{"the data file itself", path, "name a backup"},
		{"in use", held.Path(), "another process has it open"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			done, err := store.Restore(context.Background(), tt.backup, path, noon, store.Options{Timeout: 1})
			assert.ErrorContains(t, err, tt.says)
			assert.Zero(t, done)
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, before, after)
			left, err := os.ReadDir(filepath.Dir(path))
			require.NoError(t, err)
			assert.Len(t, left, 1, "no temporary file is left")
		})
	}
	running := storetest.New(t)
	_, err = store.Restore(context.Background(), good, running.Path(), noon, store.Options{Timeout: 1})
	assert.ErrorIs(t, err, store.ErrLocked)
	assert.ErrorContains(t, err, "only when no process has it open")
}

func TestVerifyChangesNothing(t *testing.T) {
	path := closed(t, 3, "cook")
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	c, err := store.Verify(context.Background(), path, store.Options{})
	require.NoError(t, err)
	c.Epoch = ""
	assert.Equal(t, store.Counts{Records: 3, Events: 3, Dinners: 1, Devices: 1}, c)
	broken := bytes.ReplaceAll(before, []byte("boathouse"), []byte("coathouse"))
	require.NoError(t, os.WriteFile(path, broken, 0o400))
	_, err = store.Verify(context.Background(), path, store.Options{})
	assert.ErrorIs(t, err, store.ErrDamaged)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, broken, after, "Verify must not change the file")
}

func TestDeviceIsFoundBySecretUntilRemoved(t *testing.T) {
	s := storetest.New(t)
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		require.NoError(t, tx.AddDevice(store.Device{ID: "two", Name: "Nora's phone", Role: "helper", Paired: 2}, "second secret"))
		return tx.AddDevice(store.Device{ID: "one", Name: "tablet", Role: "cook", Paired: 1}, "first secret")
	}))
	assert.Equal(t, []string{"tablet", "Nora's phone"}, names(t, s))
	require.NoError(t, s.View(func(tx *store.Tx) error {
		d, err := tx.DeviceBy("second secret")
		require.NoError(t, err)
		assert.Equal(t, "two", d.ID)
		for _, wrong := range []string{"", "second", "second secret ", "third secret"} {
			_, err = tx.DeviceBy(wrong)
			assert.ErrorIs(t, err, store.ErrNoDevice, wrong)
		}
		return nil
	}))
	require.NoError(t, s.Update(func(tx *store.Tx) error {
		return tx.ChangeDevice("two", func(d *store.Device) { d.Role, d.Seen = "cook", 9 })
	}))
	require.NoError(t, s.Update(func(tx *store.Tx) error { return tx.RemoveDevice("one") }))
	assert.ErrorIs(t, s.Update(func(tx *store.Tx) error { return tx.RemoveDevice("one") }), store.ErrNoDevice)
	assert.ErrorIs(t, s.Update(func(tx *store.Tx) error { return tx.ChangeDevice("one", func(*store.Device) {}) }), store.ErrNoDevice)
	require.NoError(t, s.View(func(tx *store.Tx) error {
		_, err := tx.DeviceBy("first secret")
		assert.ErrorIs(t, err, store.ErrNoDevice, "the device was removed")
		d, err := tx.DeviceBy("second secret")
		require.NoError(t, err)
		assert.Equal(t, store.Device{ID: "two", Name: "Nora's phone", Role: "cook", Paired: 2, Seen: 9}, d)
		return nil
	}))
	file, err := os.ReadFile(s.Path())
	require.NoError(t, err)
	assert.NotContains(t, string(file), "second secret", "only the secret's hash is on disk")
}
