package demand

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/kitchen"
	"hobside/internal/quantity"
)

func asked(buy []Purchase) string {
	var out []string
	for _, b := range buy {
		text := quantity.Show(b.Amount, quantity.Prefs{Scale: quantity.Frac(1, 10)})
		if b.Packs > 0 {
			text = fmt.Sprint(b.Packs) + " × " + quantity.Show(b.Pack, quantity.Prefs{})
		}
		out = append(out, text)
	}
	return strings.Join(out, " + ")
}

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
		"plate": made("makes: 1 plate", "22 g leeks", "30 g [Soup](soup.md)", "1 g salt", "moonleaf, to taste"),
		"soup":  made("makes: 300 g", "90 g onions, unpeeled", "90 g onions, sliced", "100 ml water", "3 eggs, each 50 g", "20 g leeks, trim 20 %"),
	})
	d, problems := Explode(in)
	require.Empty(t, problems)
	lines := map[string]Line{}
	var sections []string
	for _, l := range Order(d, Shop{}) {
		lines[l.Name] = l
		if len(sections) == 0 || sections[len(sections)-1] != l.Section {
			sections = append(sections, l.Section)
		}
	}
	assert.NotContains(t, lines, "water")
	// 220 g ÷ 0.44 = 500 g, and 20 g ÷ 0.8 = 25 g by the card's own trim: 525 g.
	assert.Equal(t, "525 g", asked(lines["leek"].Buy))
	assert.Equal(t, "240 g", show(lines["leek"].Need))
	// 90 g as bought and 90 g ÷ 0.9 = 100 g.
	assert.Equal(t, "190 g", asked(lines["onion"].Buy))
	assert.Equal(t, "180 g", show(lines["onion"].Need))
	assert.Equal(t, "3", asked(lines["egg"].Buy))
	assert.Empty(t, lines["moonleaf"].Buy)
	assert.Contains(t, lines["moonleaf"].Note, "not in the food table")
	assert.Len(t, lines["leek"].Wants, 2)
	assert.Equal(t, []string{"dry goods", "vegetables", "other", "dairy and eggs"}, sections)
}

func TestRoundUpIsNeverBelowNeed(t *testing.T) {
	for in, want := range map[string]string{
		"7.2 g": "7.5 g", "21.1 g": "22 g", "101 g": "105 g", "1001 g": "1.01 kg", "10.01 kg": "10.1 kg", "2.1 eggs": "3", "330 ml": "330 ml", "1.31 L": "1.31 L",
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
		"trout": made("makes: 1 plate", "80 g trout", "20 g [Sauce](sauce.md)", "2 g moonflower"),
		"beet":  made("makes: 1 plate", "80 g beetroot", "10 g [Sauce](sauce.md)", "5 g rye flour, optional"),
		"sauce": made("makes: 1 kg\nwithout: gluten (oat cream of a certified mill)", "300 g cream", "10 g wheat flour", "5 g fish sauce"),
	})
	d, problems := Explode(in)
	require.Empty(t, problems)
	var got []string
	for _, c := range Clashes(in, d) {
		sure := "sure"
		if !c.Sure {
			sure = "not sure"
		}
		got = append(got, in.Menu.Guests[c.Group-1].Exclude[0]+": "+c.Plate+": "+strings.Join(c.Via, " > ")+" "+sure)
	}
	assert.Equal(t, []string{
		"gluten: Trout: Card > Card > cream sure",                  // milk; the flour's gluten is answered for by the author
		"gluten: Trout: Card > moonflower (not assessed) not sure", // once, though neither exclusion is sure
		"trout: Trout: Card > trout sure", "trout: Trout: Card > moonflower (not assessed) not sure",
		"fish: Beetroot: Card > Card > fish sauce sure",
	}, got)
}

func lineOf(t *testing.T, in Input, shop Shop, name string) Line {
	t.Helper()
	d, _ := Explode(in)
	for _, l := range Order(d, shop) {
		if l.Name == name {
			return l
		}
	}
	t.Fatalf("%s is not on the list", name)
	return Line{}
}

// How things are sold is common practice, no source; the weights are those of
// the food table, the divisions by hand.
func TestOrderInUnitsAsSold(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "11 g parsley", "15 g butter", "35 g eggs", "60 g [Beans](beans.md)", "2 g lemon", "30 g onions", "12 g strong flour", "1 clove garlic"),
		"beans": made("makes: 1 kg", "900 g white beans, pack 400 g", "300 g plain flour, bag 1.5 kg"),
	})
	for name, want := range map[string]string{
		"parsley":      "2",         // 110 g ÷ 0.95 = 115.8 g, a bunch 60 g
		"butter":       "1 × 250 g", // 150 g
		"egg":          "7",         // 350 g of 50 g
		"white bean":   "2 × 400 g", // 600 g × 0.9 = 540 g
		"plain flour":  "1 × 1.5 kg",
		"strong flour": "1 × 1 kg",
		"lemon":        "1",     // 20 g of 108 g
		"onion":        "335 g", // 300 g ÷ 0.9 = 333.3 g
		"garlic":       "1",     // 10 cloves are 30 g, a head 40 g
	} {
		l := lineOf(t, in, Shop{}, name)
		text := asked(l.Buy)
		text = strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(text, " bunches"), " bunch"), " head")
		assert.Equal(t, want, text, name)
	}
}

func TestYolksAndWhitesAreBoughtAsEggs(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "1 egg yolk", "16.5 g egg whites", "0.5 eggs"),
	})
	l := lineOf(t, in, Shop{}, "egg")
	// 5 whole, 10 for their yolks, of which 5 give their whites too (165 g ÷ 33 g).
	assert.Equal(t, "15", asked(l.Buy))
	assert.Len(t, l.Wants, 3)
	assert.Contains(t, l.Note, "10 for their yolks; 5 for their whites")
	d, _ := Explode(in)
	assert.Len(t, Order(d, Shop{}), 1)
}

func TestHaveAndCost(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "30 g butter", "2 eggs", "5 g thyme", "10 g moonflower")})
	kitchen, problems := kitchen.Parse("k.md", []byte("---\ncooks: 1\nhob: 1\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n\n## Prices\n\n- butter: €9.20 per kg\n- Eggs: €3.60 per 12\n- thyme: €1.10 per bunch\n"))
	require.Empty(t, problems)
	shop := Shop{Prices: kitchen.Prices, Have: map[string]quantity.Amount{
		"butter": amount(t, "100 g"), "egg": amount(t, "24"), "thyme": amount(t, "1 bunch"), "moonflower": amount(t, "1 bunch"),
	}}
	l := lineOf(t, in, shop, "butter")
	assert.Equal(t, "1 × 250 g", asked(l.Buy), "300 g less 100 g")
	assert.Equal(t, "23/10", l.Cost.String(), "250 g at 9.20 a kg")
	assert.Equal(t, "100 g", show([]quantity.Amount{l.Have}))
	l = lineOf(t, in, shop, "egg")
	assert.Empty(t, l.Buy, "24 are there, 20 are wanted")
	assert.False(t, l.Priced)
	l = lineOf(t, in, shop, "thyme")
	assert.Equal(t, "1 bunch", asked(l.Buy), "50 g are two bunches of 25 g")
	l = lineOf(t, in, shop, "moonflower")
	assert.Equal(t, "100 g", asked(l.Buy))
	assert.Contains(t, l.Note, "what is there can't be taken off")
	d, _ := Explode(in)
	sum, unpriced := Cost(Order(d, shop))
	assert.Equal(t, "17/5", sum.String(), "2.30 and 1.10")
	assert.Equal(t, 1, unpriced, "moonflower")
	assert.Equal(t, "€", kitchen.Prices[0].Currency)
}

// Two batches with 2 ½ bay leaves each take 3 each.
func TestWholeItemsAreRoundedByBatch(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "200 g [Stock](stock.md)"),
		"stock": made("makes: 1 kg\nlargest: 1 kg", "2.5 bay leaves"),
	})
	assert.Equal(t, "6", asked(lineOf(t, in, Shop{}, "bay leaf").Buy))
}

// TestFruitIsBoughtWholeForItsJuice: the order list and the price are of whole fruit, by the
// food table 108 g with its peel, and not of the 48 g of juice that one yields (USDA SR28).
func TestFruitIsBoughtWholeForItsJuice(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "juice of 1 lemon", "zest of 2 lemons")})
	k, problems := kitchen.Parse("k.md", []byte("---\ncooks: 1\nhob: 1\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n\n## Prices\n\n- lemons: €5 per kg\n"))
	require.Empty(t, problems)
	l := lineOf(t, in, Shop{Prices: k.Prices}, "lemon")
	assert.Equal(t, "30", asked(l.Buy), "three for each of 10 covers")
	assert.Equal(t, "81/5", l.Cost.String(), "30 × 108 g at 5.00 a kg")
}
