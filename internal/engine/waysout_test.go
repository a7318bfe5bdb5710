package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
)

// fishFiles is a dinner in which the guest without trout gets it, while the course has
// another plate, and the trout has an optional item.
var fishFiles = []File{
	{"trout.md", "---\nmakes: 1 plate\n---\n# Trout\n\n## Formula\n\n- 100 g trout fillet\n- 10 g walnuts, optional\n\n## Method\n\n1. Lay out the **trout fillet** and the **walnuts**.\n   - hands: 1 min\n   - serve\n"},
	{"beets.md", "---\nmakes: 1 plate\n---\n# Beets\n\n## Formula\n\n- 100 g beetroot\n\n## Method\n\n1. Lay out the **beetroot**.\n   - hands: 1 min\n   - serve\n"},
	{"menu.md", "---\ncovers: 4\nserve: 2027-06-12 19:30\n---\n# Menu\n\n## Main\n\n- [Trout](trout.md)\n- [Beets](beets.md): for no egg\n\n## Guests\n\n- 1 cover: no trout\n- 1 cover: no walnuts\n"},
}

// take sends the event of a way out.
func (p *phone) take(w dinner.WayOut) (*DinnerView, string) {
	d, _, id := p.tap(dinner.Event{Kind: w.Kind, On: w.On, Done: w.Done, Number: w.Number, Text: w.Words})
	return d, id
}

// TestWayOutIsTakenByItsEvent: each way out, sent as the event that it names, ends the clash,
// changes the amounts, and can be undone.
func TestWayOutIsTakenByItsEvent(t *testing.T) {
	p, d := openMenu(t, fishFiles, "menu.md")
	require.Len(t, d.Guests, 2)
	require.Len(t, d.Guests[0].Out, 1)
	other := d.Guests[0].Out[0]
	assert.Equal(t, dinner.WayOut{Course: "Main", Plate: "Trout", Text: "Serve these guests Beets", Kind: dinner.KindPlate, On: "course/1", Number: 2, Words: "trout"}, other)

	d, id := p.take(other)
	require.NotNil(t, d)
	assert.Equal(t, map[string]int{"trout": 3, "beets": 1}, served(d, 0))
	assert.Empty(t, d.Guests[0].Clashes)
	assert.Empty(t, d.Guests[0].Out)
	require.Len(t, d.Guests[0].Seated, 1)
	assert.Equal(t, "Beets", d.Guests[0].Seated[0].Plate)
	back, _ := p.take(d.Guests[0].Seated[0])
	assert.Equal(t, map[string]int{"trout": 4, "beets": 0}, served(back, 0), "as the menu says")

	p.take(other)
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: id})
	require.NotEmpty(t, d.Guests[1].Out)
	leave := d.Guests[1].Out[len(d.Guests[1].Out)-1]
	for _, w := range d.Guests[1].Out {
		if w.Kind == dinner.KindLeave {
			leave = w
		}
	}
	assert.Equal(t, "Leave the walnuts off Trout, for everybody", leave.Text)
	d, id = p.take(leave)
	assert.Empty(t, d.Guests[1].Clashes)
	assert.True(t, cardOf(t, d, "trout").Batches[0].Mise[1].Left)
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindUndo, Undo: id})
	assert.NotEmpty(t, d.Guests[1].Clashes)
}

// TestPlateOfGuestsWhoAreGoneIsForgotten: the plate is chosen for guests with these words, and
// for no others.
func TestPlateOfGuestsWhoAreGoneIsForgotten(t *testing.T) {
	p, d := openMenu(t, fishFiles, "menu.md")
	p.take(d.Guests[0].Out[0])
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindGuests, Text: "1 cover: no walnuts"})
	assert.Equal(t, map[string]int{"trout": 4, "beets": 0}, served(d, 0))
	d, _, _ = p.tap(dinner.Event{Kind: dinner.KindGuests, Text: "2 covers: no trout"})
	assert.Equal(t, map[string]int{"trout": 2, "beets": 2}, served(d, 0), "the choice still holds for them")
}

// TestWordsThatAreNotReadAreListed: with the nearest word that is understood.
func TestWordsThatAreNotReadAreListed(t *testing.T) {
	p, _ := openMenu(t, fishFiles, "menu.md")
	d, _, _ := p.tap(dinner.Event{Kind: dinner.KindGuests, Text: "1 cover: no nutz"})
	require.Len(t, d.Guests, 1)
	require.Len(t, d.Guests[0].NotRead, 1)
	assert.Contains(t, d.Guests[0].NotRead[0].Word, "nutz")
	assert.Contains(t, d.Guests[0].NotRead[0].DidYouMean, "nut")
}
