package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// served returns how many covers each plate of a course is served for.
func served(d *DinnerView, course int) map[string]int {
	out := map[string]int{}
	for _, p := range d.Courses[course].Plates {
		out[p.Card] = p.Covers
	}
	return out
}

// TestGuestsOfADinner sets the guests of a dinner: every amount follows. Before
// that, and after an undo, the menu's guests count.
func TestGuestsOfADinner(t *testing.T) {
	p, d := demo(t)
	assert.Equal(t, map[string]int{"trout-plate": 14, "beetroot-plate": 4}, served(d, 2))
	beetroot := cardOf(t, d, "salt-baked-beetroot").Batches[0].Make

	d, s, id := p.tap(dinner.Event{Kind: dinner.KindGuests, Text: "6 covers: no fish\n1 cover: no egg, no gluten (at the head)"})
	require.NotNil(t, d)
	assert.Equal(t, map[string]int{"trout-plate": 12, "beetroot-plate": 6}, served(d, 2))
	assert.NotEqual(t, beetroot, cardOf(t, d, "salt-baked-beetroot").Batches[0].Make)
	require.Len(t, d.Guests, 2)
	assert.Equal(t, "at the head", d.Guests[1].Note)
	assert.Equal(t, []string{"egg", "gluten"}, d.Guests[1].Exclude)
	assert.NotEmpty(t, d.Guests[1].Clashes, "eggs are in the parfait")
	assert.NotNil(t, s.Guests)

	d, _, all := p.tap(dinner.Event{Kind: dinner.KindGuests}) // all can have all
	assert.Equal(t, map[string]int{"trout-plate": 18, "beetroot-plate": 0}, served(d, 2))
	assert.Empty(t, d.Guests)

	p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: all})
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: id})
	assert.Equal(t, map[string]int{"trout-plate": 14, "beetroot-plate": 4}, served(d, 2), "as the menu says")
}

// TestBadGuestsAreProblems gives lines of guests that can't be understood: each
// is a problem, and the dinner is still worked out.
func TestBadGuestsAreProblems(t *testing.T) {
	for _, c := range []struct{ lines, msg, do string }{
		{"20 covers: no fish", "20 guests have exclusions, but there are only 18 covers", "correct one of the two numbers"},
		{"some: no fish", "the line does not begin with a number of guests", `write it like "2 covers: no fish"`},
		{"2 covers: no nutz", `not checked: "no nutz" is no allergen, diet or food that is known`, `write an allergen ("no nuts"), a diet ("vegan") or a food, and ask the guest again`},
		{"2 covers:", "the line does not say what these guests can't have", `write it like "2 covers: no fish"`},
	} {
		p, _ := demo(t)
		d, _, _ := p.tap(dinner.Event{Kind: dinner.KindGuests, Text: c.lines})
		require.NotNil(t, d, c.lines)
		found := false
		for _, f := range d.Problems {
			found = found || f.File == "guests" && f.Msg == c.msg && f.Do == c.do
		}
		assert.True(t, found, "%s: %v", c.lines, d.Problems)
		assert.NotEmpty(t, d.Cards)
	}
}
