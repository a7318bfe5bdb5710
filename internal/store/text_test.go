package store_test

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/store"
)

// TestChangedTextIsNotRead changes one bit of a text on the disk, which makes
// "120 g salt" "920 g salt". No read returns the text, and the store remembers the
// damage; the other records can still be read.
func TestChangedTextIsNotRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hobside.db")
	salt := file(1, "stock.md", "")
	salt.Text = "# Stock\n\n- 120 g salt\n"
	s, err := store.Open(path, store.Options{New: func(tx *store.Tx) error {
		var err error
		if salt, err = tx.AppendFile(salt); err != nil {
			return err
		}
		return tx.AppendEvent(tick(1))
	}})
	require.NoError(t, err)
	require.NoError(t, s.Close())
	b, err := os.ReadFile(path)
	require.NoError(t, err)
	changed := bytes.ReplaceAll(b, []byte("120 g salt"), []byte("920 g salt")) // 1 is 0x31, 9 is 0x39
	require.NotEqual(t, b, changed)
	require.NoError(t, os.WriteFile(path, changed, 0o600))

	s, err = store.Open(path, store.Options{})
	require.NoError(t, err)
	defer s.Close()
	assert.NoError(t, s.Damage(), "no text was read yet")
	for name, read := range map[string]func(*store.Tx) error{
		"Text":      func(tx *store.Tx) error { _, err := tx.Text(salt.Revision); return err },
		"File":      func(tx *store.Tx) error { _, err := tx.File("stock.md", salt.Revision); return err },
		"FindOffer": func(tx *store.Tx) error { _, err := tx.FindOffer(salt.ID); return err },
	} {
		err := s.View(read)
		assert.ErrorIs(t, err, store.ErrDamaged, name)
		assert.ErrorContains(t, err, "has changed", name)
	}
	require.NoError(t, s.View(func(tx *store.Tx) error {
		damaged, err := tx.Each(func(r store.Record) error { assert.EqualValues(t, 2, r.Seq); return nil })
		require.NoError(t, err)
		assert.Len(t, damaged, 1)
		page := tx.Since(0, 10, 1<<20)
		assert.Len(t, page.Damaged, 1)
		assert.EqualValues(t, 1, page.Damaged[0].Seq)
		assert.Contains(t, page.Damaged[0].Why, "has changed")
		assert.Equal(t, []store.Record{{Seq: 2, Event: new(tick(1))}}, page.Records, "the other record")
		page = tx.Since(0, 1, 1<<20)
		assert.Empty(t, page.Records)
		assert.EqualValues(t, 1, page.Next, "a page of damaged records leads on")
		assert.True(t, page.More)
		r, err := tx.FindEvent(tick(1).ID)
		assert.Equal(t, tick(1), *r.Event)
		return err
	}))
	assert.ErrorIs(t, s.Damage(), store.ErrDamaged)
	assert.ErrorIs(t, s.Check(context.Background()), store.ErrDamaged)
}
