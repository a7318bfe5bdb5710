package engine

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// TestComponentThatDoesNotKeepIsMadeTwice: a foam that keeps half an hour, for two courses two hours apart,
// is made twice: in the amounts, in the plan, and after a change of covers.
func TestComponentThatDoesNotKeepIsMadeTwice(t *testing.T) {
	plate := func(title string) string {
		return "---\nmakes: 1 plate\n---\n\n# " + title + "\n\n## Formula\n\n- 50 g [Foam](foam.md)\n\n## Method\n\n1. Send with the **foam**.\n   - hands: 5 min\n   - serve\n"
	}
	p, d := openMenu(t, []File{
		{Name: "supper.md", Text: "---\ncovers: 4\nserve: 2027-06-12 19:30\nkitchen: galley.md\n---\n\n# Supper\n\n## Fish\n\n- [Fish](fish.md)\n\n## Meat\n\n- after: 2 h\n- [Meat](meat.md)\n"},
		{Name: "galley.md", Text: "---\ncooks: 2\n---\n\n# Galley\n\n## Equipment\n\n- sink\n\n## Hours\n\n- on the day: 08:00–24:00\n"},
		{Name: "fish.md", Text: plate("Fish")},
		{Name: "meat.md", Text: plate("Meat")},
		{Name: "foam.md", Text: "---\nmakes: 200 g\nkeeps: 30 min room\n---\n\n# Foam\n\n## Formula\n\n- 200 g cream\n\n## Method\n\n1. Whip the **cream**.\n   - hands: 5 min\n"},
	}, "supper.md")
	require.Len(t, cardOf(t, d, "foam").Batches, 2)
	served := time.Date(2027, 6, 12, 18, 30, 0, 0, time.UTC).UnixMilli()
	for _, covers := range []int{4, 9} {
		if covers != 4 {
			d, _, _ = p.tap(dinner.Event{Kind: dinner.KindCovers, Number: covers})
		}
		keys := map[string]bool{}
		for _, m := range cardOf(t, d, "foam").Batches {
			for _, s := range m.Steps {
				keys[s.Key] = true
			}
		}
		v := call[dinner.Schedule](t, p.e, "plan", PlanCall{Dinner: p.dinner, ServeAt: served, Now: served - 30*24*3_600_000})
		require.Empty(t, v.Blocked)
		assert.Contains(t, v.Notes, "Foam is made twice: it keeps 30 min")
		for _, task := range v.Tasks {
			delete(keys, task.Key)
		}
		assert.Empty(t, keys, "every step of both batches is in the plan")
	}
}
