package bench

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/plan"
)

// TestFiguresCountWhatTheySay measures a plan written by hand.
func TestFiguresCountWhatTheySay(t *testing.T) {
	in, err := Read("../../../testdata/menus/lunch/orchard-lunch.md") // the day before 13:00–20:00, the day 08:00–17:00
	require.NoError(t, err)
	p, err := plan.Make(in)
	require.NoError(t, err)
	wall := func(days int, clock string) int {
		w, what := document.ParseWhen("2027-09-04 " + clock)
		require.Empty(t, what)
		return w.Add(days * 24 * 60).Sub(p.Serve)
	}
	task := func(card string, step, cook, days int, from, free string) plan.Task {
		return plan.Task{Step: plan.Step{Card: card, Batch: 1, Step: step}, Cook: cook, Start: wall(days, from), Free: wall(days, free), End: wall(days, free)}
	}
	p.Tasks = []plan.Task{
		task("a", 1, 1, -1, "13:00", "14:00"),
		task("a", 2, 1, -1, "14:10", "14:31"), // 10 minutes are no pause
		task("b", 1, 1, -1, "14:31", "15:00"), // odd, a change of card
		task("c", 1, 2, -1, "14:50", "15:00"),
		task("b", 2, 2, -1, "15:20", "15:30"), // handed over, and a change
		task("b", 3, 0, -1, "16:01", "16:01"), // nobody: odd, no handover
		task("d", 1, 1, -1, "18:50", "19:10"), // 10 minutes of the last hour, and a change
		task("d", 2, 2, -1, "19:40", "20:00"), // 20 minutes of it; handed over, a change
		task("d", 3, 1, 0, "08:01", "08:30"),  // on the day: no odd start, no handover over night
		task("e", 1, 2, 0, "08:30", "08:40"),  // shared, led by the second cook: no change of the first
		task("d", 4, 1, 0, "08:40", "08:50"),
	}
	p.Tasks[9].With = []int{1}
	p.Courses[0].At += 4
	f := Measure(p, 2)
	assert.Equal(t, Figures{Steps: 11, Handovers: 2, CardChanges: 4, LongestStretch: 120, LastHour: 25, OddStarts: 2, Late: 4}, f)
	assert.Equal(t, "menu= steps=11 handovers=2 card_changes=4 longest_stretch_min=120 last_hour_share_pct=25 odd_starts=2 late_min=4", f.String())
}

// TestEveryMenuOfTheTableIsPlanned runs the measurement for each menu in testdata.
func TestEveryMenuOfTheTableIsPlanned(t *testing.T) {
	for _, menu := range []string{"lunch/orchard-lunch", "supper/harbour-supper", "buffet/hall-buffet"} {
		t.Run(menu, func(t *testing.T) {
			var out strings.Builder
			require.NoError(t, Run("../../../testdata/menus/"+menu+".md", &out))
			assert.Regexp(t, `^menu=`+filepath.Base(menu)+` steps=\d+ handovers=\d+ card_changes=\d+ longest_stretch_min=\d+ last_hour_share_pct=\d+ odd_starts=\d+ late_min=0 ms=\d+\n$`, out.String())
		})
	}
}

func TestMenuThatCannotBeReadIsRefused(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
		return path
	}
	menu := write("menu.md", "---\ncovers: 2\nserve: 2027-06-12 19:00\n---\n\n# Supper\n\n## One\n\n- [C](c.md)\n")
	write("c.md", "---\nmakes: 1 plate\n---\n\n# C\n\n## Formula\n\n- 1 g salt\n\n## Method\n\n1. Send the **salt**.\n   - hands: 1 min\n   - serve\n")
	require.ErrorContains(t, Run(menu, os.Stderr), "its kitchen is not in")
	write("k.md", "---\ncooks: 1\nhob: 1\n---\n\n# K\n\n## Hours\n\n- the day before: 08:00–09:00\n")
	require.ErrorContains(t, Run(menu, os.Stderr), "there is no plan")
	require.ErrorContains(t, Run(filepath.Join(dir, "c.md"), os.Stderr), "is not a menu")
	require.ErrorContains(t, Run(filepath.Join(dir, "other.md"), os.Stderr), "is not a menu")
	write("d.md", "---\nmakes: some\n---\n\n# D\n")
	require.ErrorContains(t, Run(menu, os.Stderr), "d.md:2:")
}
