package plan

import (
	"io/fs"
	"path"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/content"
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/menu"
)

// supper is the demo dinner in its kitchen.
func supper(t testing.TB, covers int) Input {
	t.Helper()
	in := Input{Dinner: demand.Input{Cards: map[string]*card.Card{}, Covers: covers}}
	require.NoError(t, fs.WalkDir(content.Files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".md" || path.Base(name) == "README.md" {
			return err
		}
		src, err := fs.ReadFile(content.Files, name)
		if err != nil {
			return err
		}
		switch menu.KindOf(src) {
		case menu.KindMenu:
			in.Dinner.Menu, _ = menu.ParseMenu(name, src)
		case menu.KindKitchen:
			in.Kitchen, _ = menu.ParseKitchen(name, src)
		default:
			c, _ := card.Parse(path.Base(name), src)
			in.Dinner.Cards[c.ID] = c
		}
		return nil
	}))
	in.Serve = in.Dinner.Menu.Serve
	return in
}

// TestDemoKeepsTheRules has the demo dinner looked over for other numbers of
// guests. With twenty-four the soup goes through the blender in so many loads
// that the first is cold, and the plan says so.
func TestDemoKeepsTheRules(t *testing.T) {
	for _, tt := range []struct {
		covers int
		why    string
	}{
		{1, ""}, {6, ""}, {12, ""}, {18, ""},
		{24, "Pea and lettuce soup, step 4 goes in loads one after the other: the first waits 12 min for the last, and may wait 10 min hot"},
		{30, "Pea and lettuce soup, step 4 goes in loads one after the other: the first waits 16 min for the last, and may wait 10 min hot"},
	} {
		t.Run(strconv.Itoa(tt.covers), func(t *testing.T) {
			in := supper(t, tt.covers)
			pl, err := Make(in)
			if tt.why != "" {
				assert.EqualError(t, err, tt.why)
				return
			}
			require.NoError(t, err)
			assert.Empty(t, breaks(in, pl))
		})
	}
}

func BenchmarkDemo(b *testing.B) {
	in := supper(b, 18)
	for b.Loop() {
		_, err := Make(in)
		require.NoError(b, err)
	}
}
