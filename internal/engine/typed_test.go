package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
	"hobside/internal/menu"
	"hobside/internal/quantity"
)

// TestPlacesAndKeysSayTheSame checks that every key of the dinner is the one
// that its parts make, and that every unit asked for is one an event may name.
func TestPlacesAndKeysSayTheSame(t *testing.T) {
	_, d := demo(t)
	for _, c := range d.Cards {
		for m, b := range c.Batches {
			_, ok := quantity.LookupUnit(b.Unit)
			assert.True(t, ok, "%s: unit %q", c.ID, b.Unit)
			for _, s := range b.Steps {
				assert.Equal(t, dinner.StepKey(s.At.Card, s.At.Batch, s.At.Step), s.Key)
				assert.Equal(t, []any{c.ID, m + 1}, []any{s.At.Card, s.At.Batch})
			}
		}
	}
	for i, c := range d.Courses {
		for j, p := range c.Plates {
			require.Len(t, p.Keys, p.Covers)
			assert.Equal(t, dinner.PlateKey(i+1, j+1, p.Covers), p.Keys[p.Covers-1])
		}
	}
}

// TestClashIsOnThePlateItIsAbout serves one card on three plates; a guest who
// excludes an item of it gets two of them.
func TestClashIsOnThePlateItIsAbout(t *testing.T) {
	_, d := openMenu(t, []File{
		{"toast.md", "---\nmakes: 1 plate\n---\n# Toast\n\n## Formula\n\n- 80 g wheat flour\n\n## Method\n\n1. Bake the **wheat flour**.\n"},
		{"menu.md", "---\ncovers: 4\nserve: 2027-06-12 19:30\n---\n# Menu\n\n## First\n\n- [Toast](toast.md)\n- [Toast](toast.md): for no gluten\n\n## Last\n\n- [Toast](toast.md)\n\n## Guests\n\n- 1 cover: no gluten\n"},
	}, "menu.md")
	require.Len(t, d.Courses, 2)
	clashes := map[string]int{}
	for _, g := range d.Guests {
		for _, c := range g.Clashes {
			clashes[c.Course]++
		}
	}
	require.NotEmpty(t, clashes)
	for _, c := range d.Courses {
		got := 0
		for _, p := range c.Plates {
			got += len(p.Clashes)
		}
		assert.Equal(t, clashes[c.Name], got, c.Name)
	}
	assert.Empty(t, d.Courses[0].Plates[0].Clashes, "the guest does not get this one")
}

// TestPlateKeysAreBounded sets more covers than a menu may have.
func TestPlateKeysAreBounded(t *testing.T) {
	p, _ := demo(t)
	for _, n := range []int{menu.MaxCovers + 1, 1_000_000} {
		d := p.covers(n)
		for _, c := range d.Courses {
			for _, plate := range c.Plates {
				assert.LessOrEqual(t, len(plate.Keys), menu.MaxCovers)
			}
		}
	}
}
