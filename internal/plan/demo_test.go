package plan

import (
	"io/fs"
	"path"
	"testing"

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

func TestDemoPrint(t *testing.T) {
	in := supper(t, 18)
	pl, err := Make(in)
	if b, ok := err.(*Blocked); ok {
		for _, r := range b.Because {
			t.Log(r)
		}
	}
	require.NoError(t, err)
	for _, k := range pl.Tasks {
		t.Log(pl.project.clock(k.Start), pl.project.clock(k.Free), pl.project.clock(k.End), "latest", pl.project.clock(k.Latest), k.Cook, pl.project.name(k.Step), k.Load, k.Loads, k.On)
	}
	t.Log(pl.Courses, pl.Ways, pl.Margin, pl.Aims, len(pl.Tasks), len(pl.project.acts), pl.Notes)
	ch := pl.Chances(500, 1)
	t.Log(ch.Courses)
	for _, d := range ch.Decide {
		t.Log(pl.project.name(d.Step), d.Share, d.Before, d.Helped)
	}
	in.Dinner.Covers = 60
	_, err = Make(in)
	b := err.(*Blocked)
	t.Log(b.Because, b.Short)
	for _, c := range in.Free(b) {
		t.Log(c)
	}
}

func BenchmarkDemo(b *testing.B) {
	in := supper(b, 18)
	for b.Loop() {
		_, err := Make(in)
		require.NoError(b, err)
	}
}
