//go:build browser

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestFindByNameOrIngredient searches without a network by a part of a name,
// with any accents, and by an item, which the hit names. When nothing is found
// the page says so.
func TestFindByNameOrIngredient(t *testing.T) {
	t.Parallel()
	r := start(t, "--data", filepath.Join(t.TempDir(), "hobside.db"))
	p := newPhone(t)
	p.cookable(r)
	require.NoError(t, r.stop())
	p.visit(hash(r, "cards"))
	p.until(`document.querySelectorAll('#cards a[data-file]').length > 30`)
	p.fills("#search", "PÂRFAIT")
	p.until(`[...document.querySelectorAll('#cards a[data-file]')].map((a) => a.dataset.file).join().startsWith('honey-parfait.md')`)
	p.fills("#search", "cream")
	p.reads(`a[data-file="honey-parfait.md"]`, "has cream")
	p.fits("found")
	p.shot("cards-found")
	p.fills("#search", "nothing such")
	p.reads("#cards", "Nothing of that name")
	assert.Equal(t, "0", p.eval(`document.querySelectorAll('#cards a[data-file]').length`))
}
