package plan

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/content"
	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/kitchen"
	"hobside/internal/library"
	"hobside/internal/menu"
)

// supper is the demo dinner in its kitchen.
func supper(t testing.TB, covers int) Input {
	t.Helper()
	return dinnerIn(t, content.Files, covers)
}

// dinnerIn is the dinner of the menu, the kitchen and the cards in some files.
func dinnerIn(t testing.TB, files fs.FS, covers int) Input {
	t.Helper()
	in := Input{Dinner: demand.Input{Cards: map[string]*card.Card{}, Covers: covers}}
	require.NoError(t, fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".md" || path.Base(name) == "README.md" {
			return err
		}
		src, err := fs.ReadFile(files, name)
		if err != nil {
			return err
		}
		switch library.KindOf(src) {
		case library.KindMenu:
			in.Dinner.Menu, _ = menu.Parse(name, src)
		case library.KindKitchen:
			in.Kitchen, _ = kitchen.Parse(name, src)
		default:
			c, _ := card.Parse(path.Base(name), src)
			in.Dinner.Cards[c.ID] = c
		}
		return nil
	}))
	in.Serve = in.Dinner.Menu.Serve
	return in
}

// TestDemoPlanKeepsRules checks the plan of the demo dinner for other numbers of
// guests. For thirty the fryer takes five loads, the first is past its best before
// the last is fried, and the plan says so.
func TestDemoPlanKeepsRules(t *testing.T) {
	for _, tt := range []struct {
		covers int
		why    string
	}{
		{1, ""}, {6, ""}, {12, ""}, {18, ""}, {24, ""},
		{30, "Polenta fingers, step 7 goes in loads one after the other: the first waits 28 min for the last, and may wait 25 min hot"},
	} {
		t.Run(strconv.Itoa(tt.covers), func(t *testing.T) {
			in := supper(t, tt.covers)
			pl, err := Make(in)
			if tt.why != "" {
				assert.EqualError(t, err, tt.why)
				return
			}
			require.NoError(t, err)
			x := inspect(in, pl)
			assert.Empty(t, x.said)
			assert.Zero(t, x.odd, "starts off the five-minute marks, a day or more ahead")
		})
	}
}

// TestMenusOfTestdataKeepRules plans the menus that are measured beside the demo.
func TestMenusOfTestdataKeepRules(t *testing.T) {
	for _, folder := range []string{"lunch", "supper", "buffet"} {
		t.Run(folder, func(t *testing.T) {
			in := dinnerIn(t, os.DirFS("../../testdata/menus/"+folder), 0)
			pl, err := Make(in)
			require.NoError(t, err)
			x := inspect(in, pl)
			assert.Empty(t, x.said)
			assert.Zero(t, x.odd, "starts off the five-minute marks, a day or more ahead")
			for _, note := range pl.Notes {
				assert.NotContains(t, note, "without a break")
			}
		})
	}
}

var update = flag.Bool("update", false, "write the golden files anew")

// TestDemoGolden compares the demo's plan with a file: the same input gives the
// same plan on every machine and in wasm.
func TestDemoGolden(t *testing.T) {
	in := supper(t, 18)
	pl, err := Make(in)
	require.NoError(t, err)
	var b strings.Builder
	fmt.Fprintf(&b, "late %d, last hour %d, on the day %d, waiting %d\n", pl.Aims.Late, pl.Aims.LastHour, pl.Aims.OnTheDay, pl.Aims.Waiting)
	for _, k := range pl.Tasks {
		fmt.Fprintf(&b, "%s  %s  %s  cook %d  %s", pl.project.clock(k.Start), pl.project.clock(k.Free)[len(pl.project.clock(k.Free))-5:], pl.project.clock(k.End)[len(pl.project.clock(k.End))-5:], k.Cook, pl.Name(k.Step))
		for _, with := range k.With {
			fmt.Fprintf(&b, " with cook %d", with)
		}
		for _, p := range k.On {
			fmt.Fprintf(&b, "  %s %d", p.Equipment, p.Unit)
		}
		b.WriteByte('\n')
	}
	const golden = "testdata/supper.txt"
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(golden, []byte(b.String()), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err, "go test ./internal/plan -run Golden -update writes it")
	assert.Equal(t, string(want), b.String())
	again, err := Make(supper(t, 18))
	require.NoError(t, err)
	assert.Equal(t, pl.Tasks, again.Tasks)
}
