package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

func show(amounts []quantity.Amount) string {
	var out []string
	for _, a := range amounts {
		out = append(out, quantity.Show(a, quantity.Prefs{Scale: quantity.Frac(1, 10)}))
	}
	return strings.Join(out, " + ")
}

// TestOrder adds trim back and merges. Trims: USDA SR28 (leek 56 %, onion
// 10 %), as the food table gives them; the divisions by hand.
func TestOrder(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "22 g leeks", "30 g [Soup](soup.md)", "1 g salt", "samphire, to taste"),
		"soup":  made("makes: 300 g", "90 g onions, unpeeled", "90 g onions, sliced", "100 ml water", "3 eggs, each 50 g", "20 g leeks, trim 20 %"),
	})
	d, findings := Explode(in)
	require.Empty(t, findings)
	lines := map[string]Line{}
	var sections []string
	for _, l := range Order(d) {
		lines[l.Name] = l
		if len(sections) == 0 || sections[len(sections)-1] != l.Section {
			sections = append(sections, l.Section)
		}
	}
	assert.NotContains(t, lines, "water")
	// 220 g ÷ 0.44 = 500 g, and 20 g ÷ 0.8 = 25 g by the card's own trim: 525 g.
	assert.Equal(t, "525 g", show(lines["leek"].Buy))
	assert.Equal(t, "240 g", show(lines["leek"].Need))
	// 90 g as bought and 90 g ÷ 0.9 = 100 g.
	assert.Equal(t, "190 g", show(lines["onion"].Buy))
	assert.Equal(t, "180 g", show(lines["onion"].Need))
	assert.Equal(t, "3", show(lines["egg"].Buy))
	assert.Empty(t, lines["samphire"].Buy)
	assert.Contains(t, lines["samphire"].Note, "not in the food table")
	assert.Len(t, lines["leek"].Wants, 2)
	assert.Equal(t, []string{"dry goods", "vegetables", "other", "dairy and eggs"}, sections)
}

func TestRoundUpNeverBelowTheNeed(t *testing.T) {
	for in, want := range map[string]string{
		"7.2 g": "7.5 g", "21.1 g": "22 g", "101 g": "105 g", "1001 g": "1.01 kg", "10.01 kg": "10.05 kg", "2.1 eggs": "3", "330 ml": "330 ml", "1.31 L": "1.31 L",
	} {
		a, _, err := quantity.ParseAmount(in)
		require.NoError(t, err)
		up := roundUp(a)
		assert.Equal(t, want, show([]quantity.Amount{up}), in)
		assert.GreaterOrEqual(t, up.Qty.Cmp(a.Qty), 0)
	}
}

const guests = `---
covers: 6
---
# M

## Trout

- [Trout](trout.md)
- [Beetroot](beet.md): for no fish

## Guests

- 1 cover: no fish
- 1 cover: no gluten, no milk
- 1 cover: no trout
`

func TestClashes(t *testing.T) {
	in := dinner(t, guests, map[string]string{
		"trout": made("makes: 1 plate", "80 g trout", "20 g [Sauce](sauce.md)", "2 g sea lettuce"),
		"beet":  made("makes: 1 plate", "80 g beetroot", "10 g [Sauce](sauce.md)", "5 g rye flour, optional"),
		"sauce": made("makes: 1 kg\nwithout: gluten (oat cream of a certified mill)", "300 g cream", "10 g wheat flour", "5 g fish sauce"),
	})
	d, findings := Explode(in)
	require.Empty(t, findings)
	var got []string
	for _, c := range Clashes(in, d) {
		sure := "sure"
		if !c.Sure {
			sure = "not sure"
		}
		got = append(got, in.Menu.Guests[c.Group-1].Exclude[0]+": "+c.Plate+": "+strings.Join(c.Via, " > ")+" "+sure)
	}
	assert.Equal(t, []string{
		"gluten: Trout: Card > Card > cream sure",                   // milk; the flour's gluten is answered for by the author
		"gluten: Trout: Card > sea lettuce (not assessed) not sure", // once, though neither exclusion is sure
		"trout: Trout: Card > trout sure",
		"fish: Beetroot: Card > Card > fish sauce sure",
	}, got)
}
