package plan

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dumplings is a plate for so many covers whose dough a card makes with the facts given.
func dumplings(t *testing.T, cooks, covers int, shape, plate string) Input {
	t.Helper()
	return cook(t, galley(cooks, "12:00–24:00", "hob: 2", "oven: 1, 1 shelf"), courses(covers, "plate"), map[string]string{
		"plate":     recipe("Plate", "makes: 1 plate", []string{"100 g [Dumplings](dumplings.md)"}, plate),
		"dumplings": recipe("Dumplings", "makes: 1 kg\nkeeps: 1 d chilled", []string{"1 kg flour"}, shape),
	})
}

// TestWorkIsSharedByAsManyAsTheCardAllows plans a step of 40 minutes. The expected
// lengths are 40 min divided by the cooks, rounded up.
func TestWorkIsSharedByAsManyAsTheCardAllows(t *testing.T) {
	for _, tt := range []struct {
		facts         string
		cooks         int
		people, takes int
	}{
		{"hands: 40 min", 3, 1, 40},
		{"hands: 40 min, up to 3 cooks", 1, 1, 40},
		{"hands: 40 min, up to 3 cooks", 2, 2, 20},
		{"hands: 40 min, up to 3 cooks", 3, 3, 14},
		{"hands: 40 min, up to 3 cooks", 4, 3, 14},
		{"hands: 1 min, up to 3 cooks", 3, 1, 1}, // no shorter for more of them
		{"hands: 2 min, up to 3 cooks", 3, 2, 1},
	} {
		t.Run(fmt.Sprintf("%s by %d", tt.facts, tt.cooks), func(t *testing.T) {
			in := dumplings(t, tt.cooks, 8, "Shape them.; "+tt.facts, "Plate up.; hands: 1 min; serve")
			pl, err := Make(in)
			require.NoError(t, err)
			assert.Empty(t, breaks(in, pl))
			k := pl.Tasks[0]
			assert.Equal(t, tt.people, k.People())
			assert.Equal(t, tt.takes, k.Free-k.Start)
		})
	}
}

// TestPlatingIsShared plates a course by the covers.
func TestPlatingIsShared(t *testing.T) {
	for _, tt := range []struct {
		facts  string
		people int
	}{
		{"hands: 6 min; serve", 2},
		{"hands: 3 min; serve", 1}, // not worth walking over
		{"hands: 20 s per 1 plate; serve", 2},
		{"hands: 6 min, up to 1 cook; serve", 1},
		{"hands: 6 min; hob: 1 ring; keep: 10 min hot; serve", 1}, // it cooks
	} {
		t.Run(tt.facts, func(t *testing.T) {
			in := dumplings(t, 2, 18, "Shape them.; hands: 10 min", "Plate up.; "+tt.facts)
			pl, err := Make(in)
			require.NoError(t, err)
			assert.Empty(t, breaks(in, pl))
			assert.Equal(t, tt.people, pl.Tasks[len(pl.Tasks)-1].People())
		})
	}
}

// TestWorkThatDoesNotFitSharedIsNotShared has two plates for one course that can't be
// plated after each other in time: each cook plates one.
func TestWorkThatDoesNotFitSharedIsNotShared(t *testing.T) {
	text := courses(2, "a") + "- [b](b.md)\n- [c](c.md)\n"
	plate := func(name, facts string) string {
		return recipe(name, "makes: 1 plate", []string{"10 g salt"}, "Plate up.; "+facts)
	}
	in := cook(t, galley(2, "12:00–24:00", "hob: 2"), text, map[string]string{
		"a": plate("A", "hands: 5 min; serve; keep: 1 min room"),
		"b": plate("B", "hands: 5 min; hob: 1 ring; serve; keep: 1 min hot"),
		"c": plate("C", "wait: 1 min; serve; keep: 10 min room"),
	})
	pl, err := Make(in)
	require.NoError(t, err)
	assert.Empty(t, breaks(in, pl))
	for _, k := range pl.Tasks {
		assert.Empty(t, k.With, k.Card)
	}
}

// TestAttendedWaitHasSomebody keeps the cook at a step that has to be stirred all the
// time; where the words alone say so, the plan says that it assumes it.
func TestAttendedWaitHasSomebody(t *testing.T) {
	for _, tt := range []struct {
		step            string
		attended, notes bool
	}{
		{"Stir over ice.; hands: 2 min; wait: 15 min, attended", true, false},
		{"Stir over ice until cold.; hands: 2 min; wait: 15 min", true, true},
		{"Whisk constantly, in a bowl.; wait: 15 min", true, true},
		{"Stir. Leave until cold.; hands: 2 min; wait: 15 min", false, false},
		{"Stir until cold.; hands: 2 min; wait: 15 min, unattended", false, false},
		{"Stir until cold.; hands: 2 min; wait: 3 h", false, false}, // nobody stirs for three hours
		{"Leave it.; hands: 2 min; wait: 15 min", false, false},
	} {
		t.Run(tt.step, func(t *testing.T) {
			in := dumplings(t, 2, 8, tt.step, "Plate up.; hands: 1 min; serve")
			pl, err := Make(in)
			require.NoError(t, err)
			assert.Empty(t, breaks(in, pl))
			assert.Equal(t, tt.attended, pl.Tasks[0].End == pl.Tasks[0].Free)
			assert.Equal(t, tt.notes, strings.Contains(strings.Join(pl.Notes, "\n"), "somebody is at it all the time"))
		})
	}
}
