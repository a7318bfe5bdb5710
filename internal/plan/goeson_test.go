package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/kitchen"
)

// TestWorkThatCannotWaitGoesStraightOn: what sets, falls or wilts is known by the words
// of its step (common practice, no source), and a keep on the card goes before.
func TestWorkThatCannotWaitGoesStraightOn(t *testing.T) {
	for words, minutes := range map[string]int{
		"Melt the gelatine in the juice.":               straightOn,
		"Boil the sugar to a pale caramel.":             straightOn,
		"Whisk the whites to soft peaks.":               straightOn,
		"Whisking all the time, pour it on the yolks.":  straightOn,
		"Fold in the whipped cream.":                    straightOn,
		"Dress the leaves.":                             straightOn,
		"Toss the salad in it.":                         straightOn,
		"Lay the peas in warm bowls.":                   straightOn,
		"Soak the gelatine in cold water.":              roomKeeps,
		"Wash the leaves.":                              roomKeeps,
		"Weigh the sugar. Cook nothing yet.":            roomKeeps,
		"Melt the chocolate. Weigh the sugar.":          roomKeeps,
		"Separate the whites and whisk the flour by it": roomKeeps,
		"Set the cold plates out.":                      roomKeeps,
	} {
		c, problems := card.Parse("a.md", []byte("---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n- 1 kg flour\n\n## Method\n\n1. "+words+"\n   - hands: 5 min\n2. Go on with the **flour**.\n   - hands: 5 min\n"))
		require.Empty(t, problems)
		b := &builder{project: &project{}, in: &Input{Kitchen: &kitchen.Kitchen{}}}
		m, _, assumed := b.keeping(c, 0, false)
		assert.Equal(t, minutes, m, words)
		assert.True(t, assumed)
		c.Steps[0].Keep = []card.Keep{{Seconds: 3600, Place: "room"}}
		m, _, assumed = b.keeping(c, 0, false)
		assert.Equal(t, 60, m, words)
		assert.False(t, assumed)
	}
}

// TestKeepingTimeRunsToTheTable: a sauce that keeps 15 minutes is ready just before the
// plating that takes longer, not 15 minutes before it; what can't be is told.
func TestKeepingTimeRunsToTheTable(t *testing.T) {
	dinner := func(cooks int, plate ...string) Input {
		return cook(t, galley(cooks, "15:00–20:00", "hob: 4"), courses(4, "plate"), map[string]string{
			"sauce": recipe("Sauce", "makes: 1 kg", []string{"1 kg onions"}, "Boil the **onions**.; hob: 1 ring; hands: 9 min; keep: 15 min hot"),
			"fish":  recipe("Fish", "makes: 1 kg", []string{"1 kg onions"}, "Fry the **onions**.; hob: 1 ring; hands: 10 min; keep: 6 min hot"),
			"plate": recipe("Plate", "makes: 1 plate", []string{"10 g [Sauce](sauce.md)", "10 g [Fish](fish.md)"}, plate...)})
	}
	in := dinner(1, "Lay the **Fish**.; hands: 5 min; serve", "Send the **Sauce**.; hands: 3 min; serve")
	pl, err := Make(in)
	require.NoError(t, err)
	assert.Empty(t, breaks(in, pl))
	require.Len(t, pl.Notes, 1)
	assert.Regexp(t, `^(Sauce, step 1 waits \d+ min until Course 1 goes out, and keeps 15|Fish, step 1 waits \d+ min until Course 1 goes out, and keeps 6) min hot$`, pl.Notes[0])
	in = dinner(3, "Lay the **Fish**.; hands: 5 min; serve", "Send the **Sauce**.; hands: 3 min; serve")
	pl, err = Make(in)
	require.NoError(t, err)
	assert.Empty(t, breaks(in, pl))
	assert.Empty(t, pl.Notes)
	assert.LessOrEqual(t, -task(t, pl, "fish", 1).End, 14, "eight minutes of plating, five to put it down, one in hand")
}
