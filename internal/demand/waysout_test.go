package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/card"
	"hobside/internal/menu"
)

// outMenu is a dinner with a way out of each kind. The guest can't have walnuts, which are
// an optional item of the salad; milk, which only one way of the sauce takes; fish, for
// which the course has another plate that its menu gives to guests without egg.
func outMenu(t *testing.T, guests string) (Input, *Demand) {
	t.Helper()
	cards := map[string]*card.Card{}
	for id, text := range map[string]string{
		"salad": "---\nmakes: 1 plate\n---\n# Salad\n\n## Formula\n\n- 50 g lettuce\n- 10 g walnuts, optional\n- 20 g [Sauce](sauce.md)\n\n## Method\n\n1. Dress the **lettuce** with the **sauce**; scatter the **walnuts**.\n   - hands: 1 min\n   - serve\n",
		"sauce": "---\nmakes: 100 g\n---\n# Sauce\n\n## Formula\n\n- 80 g olive oil\n- 20 g milk\n- 20 g lemon juice\n\n## Method\n\n1. Pour out the **olive oil**.\n   - hands: 1 min\n\n### Way: creamy\n\n2. Whisk in the **milk**.\n   - hands: 1 min\n\n### Way: sharp\n\n2. Whisk in the **lemon juice**.\n   - hands: 1 min\n",
		"trout": "---\nmakes: 1 plate\n---\n# Trout\n\n## Formula\n\n- 100 g trout fillet\n\n## Method\n\n1. Lay out the **trout fillet**.\n   - hands: 1 min\n   - serve\n",
		"beets": "---\nmakes: 1 plate\n---\n# Beets\n\n## Formula\n\n- 100 g beetroot\n\n## Method\n\n1. Lay out the **beetroot**.\n   - hands: 1 min\n   - serve\n",
	} {
		c, problems := card.Parse(id+".md", []byte(text))
		for _, p := range problems {
			require.NotEqual(t, "error", string(p.Severity), "%v", p)
		}
		cards[id] = c
	}
	m, _ := menu.Parse("m.md", []byte("---\ncovers: 4\nserve: 2027-06-12 19:30\n---\n# M\n\n## First\n\n- [Salad](salad.md)\n\n## Main\n\n- [Trout](trout.md)\n- [Beets](beets.md): for no egg\n\n## Guests\n\n"+guests))
	in := Input{Menu: m, Cards: cards}
	d, _ := Explode(in)
	return in, d
}

// bought returns grams bought of an item of a card.
func bought(d *Demand, id string, item int) float64 {
	for _, b := range d.Buy {
		if b.Card == id && b.Item == item {
			return float(b.Amount.Qty)
		}
	}
	return 0
}

// TestOptionalItemIsAWayOut: the walnuts are left out, and none are bought.
func TestOptionalItemIsAWayOut(t *testing.T) {
	in, d := outMenu(t, "- 1 cover: no walnuts\n")
	out := WaysOut(in, d, Clashes(in, d))
	require.Len(t, out, 1)
	assert.Equal(t, WayOut{Group: 1, Course: 1, Line: 1, Card: "salad", Item: 2, Ends: 1}, out[0])
	assert.Equal(t, 40.0, bought(d, "salad", 2))
	in = in.without("salad", 2)
	d, _ = Explode(in)
	assert.Empty(t, Clashes(in, d))
	assert.Zero(t, bought(d, "salad", 2), "amounts follow")
}

// TestWayWithoutItIsAWayOut: made by the other way, the sauce takes no milk; amounts follow.
func TestWayWithoutItIsAWayOut(t *testing.T) {
	in, d := outMenu(t, "- 1 cover: no milk\n")
	out := WaysOut(in, d, Clashes(in, d))
	require.Len(t, out, 1)
	assert.Equal(t, WayOut{Group: 1, Course: 1, Line: 1, Card: "sauce", Way: 2, Ends: 1}, out[0])
	assert.Greater(t, bought(d, "sauce", 2), 0.0, "no way is chosen: the plan may take either")
	in = in.byWay("sauce", 2)
	d, _ = Explode(in)
	assert.Empty(t, Clashes(in, d))
	assert.Zero(t, bought(d, "sauce", 2))
	assert.Greater(t, bought(d, "sauce", 3), 0.0)
}

// TestWayThatHarmsOthersIsNoWayOut: the sharp way is no way out where a guest can't have lemon.
func TestWayThatHarmsOthersIsNoWayOut(t *testing.T) {
	offered := func(guests string) (ways []int) {
		in, _ := outMenu(t, guests)
		in = in.byWay("sauce", 1)
		d, _ := Explode(in)
		require.NotEmpty(t, Clashes(in, d))
		for _, w := range WaysOut(in, d, Clashes(in, d)) {
			if w.Way > 0 {
				ways = append(ways, w.Way)
			}
		}
		return ways
	}
	assert.Equal(t, []int{2}, offered("- 1 cover: no milk\n"))
	assert.Empty(t, offered("- 1 cover: no milk\n- 1 cover: no lemon\n"))
}

// TestOtherPlateIsAWayOut: the guest without fish gets the beets, and so does nobody else.
func TestOtherPlateIsAWayOut(t *testing.T) {
	in, d := outMenu(t, "- 1 cover: no trout\n- 1 cover: no lemon\n")
	var plates []WayOut
	for _, w := range WaysOut(in, d, Clashes(in, d)) {
		if w.Plate > 0 {
			plates = append(plates, w)
		}
	}
	require.Equal(t, []WayOut{{Group: 1, Course: 2, Line: 1, Plate: 2, Ends: 1}}, plates)
	assert.Equal(t, 400.0, bought(d, "trout", 1))
	in.Seats = map[Seat]int{SeatOf(2, in.Menu.Guests[0]): 2}
	d, _ = Explode(in)
	for _, c := range Clashes(in, d) {
		assert.NotEqual(t, 2, c.Course, "%+v", c)
	}
	assert.Equal(t, 300.0, bought(d, "trout", 1), "amounts follow")
	assert.Equal(t, 100.0, bought(d, "beets", 1))

	in.Seats = map[Seat]int{SeatOf(1, in.Menu.Guests[0]): 2, SeatOf(2, in.Menu.Guests[0]): 9}
	d, _ = Explode(in)
	assert.Equal(t, 400.0, bought(d, "trout", 1), "a plate that the course does not have is not served")
}

// TestNoWayOutIsMadeUp: trout that is no option and has no other way stays a clash, and what
// is only not assessed is offered nothing.
func TestNoWayOutIsMadeUp(t *testing.T) {
	in, d := outMenu(t, "- 1 cover: no lettuce\n")
	assert.Empty(t, WaysOut(in, d, Clashes(in, d)))
}
