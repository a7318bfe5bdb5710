package plan

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/kitchen"
)

// TestLongWorkWithoutBreakIsTold: where no plan has the breaks, the plan says who works
// how long, and whether the kitchen's file or an assumption asks for more.
func TestLongWorkWithoutBreakIsTold(t *testing.T) {
	dinner := func(top string) Input {
		return cook(t, strings.Replace(galley(1, "15:00–20:00"), "cooks: 1", top, 1), courses(4, "plate"), map[string]string{
			"plate": recipe("Plate", "makes: 1 plate", []string{"1 g salt"}, "Cut.; hands: 100 min; keep: 5 min room", "Lay.; hands: 60 min; keep: 5 min room", "Send.; hands: 5 min; serve")})
	}
	for _, tt := range []struct{ top, want string }{
		{"cooks: 1", "cook 1 works from … to … without a break; the kitchen gives no breaks, assumed are 15 min per 2 h 30 min"},
		{"cooks: 1\nbreaks: 20 min per 2 h", "cook 1 works from … to … without a break; the kitchen's breaks are 20 min per 2 h"},
		{"cooks: 1\nbreaks: none", ""},
		{"cooks: 1\nbreaks: 20 min per 5 h", ""},
	} {
		in := dinner(tt.top)
		pl, err := Make(in)
		require.NoError(t, err)
		assert.Equal(t, tt.want, regexp.MustCompile(`\d\d:\d\d to \d\d:\d\d`).ReplaceAllString(strings.Join(pl.Notes, "\n"), "… to …"), tt.top)
		assert.Empty(t, breaks(in, pl))
	}
	assert.Equal(t, pauses{15, 150}, pausesOf(&kitchen.Kitchen{}), "common practice, no source")
}

// TestWorkIsSharedOutByCard: of two cards side by side each stays with its cook, and a
// plan that is made again gives everybody the same work.
func TestWorkIsSharedOutByCard(t *testing.T) {
	step := "Do it.; hands: 10 min; wait: 5 min; keep: 5 min room"
	in := cook(t, galley(2, "15:00–20:00"), courses(4, "plate"), map[string]string{
		"a":     recipe("A", "makes: 1 kg", []string{"1 g salt"}, step, step, step),
		"b":     recipe("B", "makes: 1 kg", []string{"1 g salt"}, step, step, step),
		"plate": recipe("Plate", "makes: 1 plate", []string{"10 g [A](a.md)", "10 g [B](b.md)"}, "Send.; hands: 5 min; serve")})
	pl, err := Make(in)
	require.NoError(t, err)
	by := map[string]map[int]bool{"a": {}, "b": {}, "plate": {}}
	for _, task := range pl.Tasks {
		by[task.Card][task.Cook] = true
	}
	assert.Len(t, by["a"], 1)
	assert.Len(t, by["b"], 1)
	in.Known = pl.Starts()
	again, err := Make(in)
	require.NoError(t, err)
	require.Len(t, again.Tasks, len(pl.Tasks))
	for i, task := range again.Tasks {
		assert.Equal(t, []int{pl.Tasks[i].Start, pl.Tasks[i].Cook}, []int{task.Start, task.Cook})
	}
}
