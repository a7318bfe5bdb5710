package store_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"hobside/internal/dinner"
	"hobside/internal/store"
	"hobside/internal/store/storetest"
)

// TestFaultOfTheProgramIsNoDamage: a panic of a caller's code is an error of its own, and
// the data file is not blamed for it.
func TestFaultOfTheProgramIsNoDamage(t *testing.T) {
	s := storetest.New(t)
	var none map[string]int
	for _, run := range []func(func(*store.Tx) error) error{s.View, s.Update} {
		for _, fault := range []func(*store.Tx) error{
			func(*store.Tx) error { none["x"] = 1; return nil },
			func(*store.Tx) error { panic("words") },
			func(tx *store.Tx) error { return tx.AppendEvent(*(*dinner.Event)(nil)) },
		} {
			err := run(fault)
			assert.ErrorIs(t, err, store.ErrPanic)
			assert.NotErrorIs(t, err, store.ErrDamaged)
			assert.NotContains(t, err.Error(), "runtime error")
			var p *store.Panic
			assert.ErrorAs(t, err, &p)
			assert.NotEmpty(t, p.Stack)
		}
	}
	assert.NoError(t, s.Damage())
	require.NoError(t, s.Update(add(tick(1))))
}

// TestTextsComeBackByteForByte: every revision of a card that is edited at random is read
// back as it was written, however it is stored.
func TestTextsComeBackByteForByte(t *testing.T) {
	s := storetest.New(t)
	n := 0
	rapid.Check(t, func(t *rapid.T) {
		letters := rapid.StringOfN(rapid.SampledFrom([]rune("ab\nä")), 0, 4000, -1)
		name, text, base := "a.md", letters.Draw(t, "text"), ""
		want := map[string]string{}
		for range rapid.IntRange(1, 40).Draw(t, "edits") {
			n++
			require.NoError(t, s.Update(func(tx *store.Tx) error {
				f, err := tx.AppendFile(store.File{Name: name, Base: base, Text: text, At: int64(n)})
				base = f.Revision
				return err
			}))
			want[base] = text
			from := rapid.IntRange(0, len(text)).Draw(t, "from")
			to := rapid.IntRange(from, min(len(text), from+20)).Draw(t, "to")
			text = text[:from] + rapid.StringN(0, 20, 60).Draw(t, "instead") + text[to:]
		}
		require.NoError(t, s.View(func(tx *store.Tx) (err error) {
			for revision, text := range want {
				have, rerr := tx.Text(revision)
				assert.Equal(t, text, have)
				err = errors.Join(err, rerr)
			}
			return err
		}))
	})
}
