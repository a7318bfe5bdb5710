package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// fish is a plate with two ways: crisped to order in a pan that takes four, or
// ahead and heated through.
func fish(t testing.TB, covers int) Input {
	return cook(t, galley(2, "08:00–24:00", "hob: 1", "oven: 1, 2 shelves"), courses(covers, "plate"), map[string]string{"plate": `---
makes: 1 plate
---

# Crisp fish

## Formula

- 1 piece fish
- 5 g salt

## Method

1. Salt the **fish**.
   - hands: 5 min
   - keep: 4 h chilled

### Way: at the pass

2. Crisp the **fish**.
   - hob: 1 ring
   - load: 4 pieces
   - hands: 2 min
   - wait: 3 min
   - keep: 8 min hot
   - serve

### Way: ahead, and heat through

2. Crisp the **fish**, cool and chill.
   - hob: 1 ring
   - load: 4 pieces
   - hands: 5 min
   - keep: 4 h chilled
3. Heat through.
   - oven: 180 °C, 2 shelves
   - hands: 2 min
   - wait: 10 min
   - keep: 10 min hot
   - serve
`})
}

func TestWays(t *testing.T) {
	in := fish(t, 4)
	pl, err := Make(in)
	require.NoError(t, err)
	assert.Equal(t, []Choice{{"plate", 1, "the first way on the card, and it fits"}}, pl.Ways)
	assert.Empty(t, breaks(in, pl))

	in = fish(t, 16)
	pl, err = Make(in)
	require.NoError(t, err)
	assert.Equal(t, []Choice{{"plate", 2, "“at the pass” does not fit: Crisp fish, step 2 goes in loads one after the other: the first waits 15 min for the last, and may wait 8 min hot"}}, pl.Ways)
	assert.Empty(t, breaks(in, pl))

	in.Dinner.Ways = map[string]int{"plate": 1}
	_, err = Make(in)
	b := new(Blocked)
	require.ErrorAs(t, err, &b, "the cook's choice is kept, though it does not fit")
	way := in.Free(b)[0]
	assert.Equal(t, "Crisp fish: “ahead, and heat through”", way.Text)
	assert.Equal(t, "every course on time", way.Effect)
	assert.Equal(t, []Deed{{Do: DoWay, Card: "plate", Way: 2}}, way.Do)

	in = fish(t, 4)
	in.Dinner.Ways = map[string]int{"plate": 2}
	pl, err = Make(in)
	require.NoError(t, err)
	assert.Equal(t, []Choice{{"plate", 2, "as you chose"}}, pl.Ways)
	assert.Empty(t, breaks(in, pl))
}

// TestTwoOvens plans two temperatures at one time, which need two ovens, and two
// things at one temperature, which share one.
func TestTwoOvens(t *testing.T) {
	cards := func(a, b string) map[string]string {
		return map[string]string{"plate": recipe("Plate", "makes: 1 plate", []string{"20 g [One](one.md)", "20 g [Two](two.md)"}, "Lay out.; hands: 5 min; serve"),
			"one": recipe("One", "makes: 1 kg", []string{"1 kg onions"}, "Roast.; oven: "+a+"; hands: 5 min; wait: 40 min; keep: 10 min hot"),
			"two": recipe("Two", "makes: 1 kg", []string{"1 kg leeks"}, "Roast.; oven: "+b+"; hands: 5 min; wait: 40 min; keep: 10 min hot")}
	}
	for _, tt := range []struct {
		name, ovens, a, b string
		fits              bool
	}{
		{"one oven, one temperature", "oven: 1, 2 shelves", "180 °C", "180 °C", true},
		{"one oven, two temperatures", "oven: 1, 2 shelves", "180 °C", "120 °C", false},
		{"one shelf, one temperature", "oven: 1, 1 shelf", "180 °C", "180 °C", false},
		{"two ovens, two temperatures", "oven: 2, 1 shelf", "180 °C", "120 °C", true},
		{"two ovens, one temperature", "oven: 2, 1 shelf", "180 °C", "180 °C", true},
		{"two ovens, two shelves of one and one of the other", "oven: 2, 2 shelves", "180 °C, 2 shelves", "120 °C", true},
		{"no temperature said goes with any", "oven: 1, 2 shelves", "180 °C", "1 shelf", true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := cook(t, galley(2, "08:00–24:00", tt.ovens), courses(4, "plate"), cards(tt.a, tt.b))
			pl, err := Make(in)
			if !tt.fits {
				b := new(Blocked)
				require.ErrorAs(t, err, &b)
				assert.Equal(t, []string{"oven"}, b.Short)
				assert.Contains(t, b.Because[0], "oven")
				assert.Equal(t, "one more oven", in.Free(b)[0].Text)
				return
			}
			require.NoError(t, err)
			assert.Empty(t, breaks(in, pl))
		})
	}
}

// TestTwoFryersAtOneTemperature: twelve pieces through two fryers of four take two
// rounds, and both fryers at once.
func TestTwoFryersAtOneTemperature(t *testing.T) {
	in := cook(t, galley(2, "08:00–24:00", "fryer: 2"), courses(12, "plate"), map[string]string{
		"plate": recipe("Fritters", "makes: 1 plate", []string{"1 piece bread"}, "Fry the **bread**.; fryer: 180 °C; load: 4 pieces; hands: 1 min; wait: 3 min; keep: 10 min hot; serve")})
	pl, err := Make(in)
	require.NoError(t, err)
	require.Len(t, pl.Tasks, 1)
	k := pl.Tasks[0]
	assert.Equal(t, []Place{{"fryer", 1, 180, true}, {"fryer", 2, 180, true}}, k.On)
	assert.Equal(t, 10, k.End-k.Start, "each round a minute of hands for each fryer, and three of frying")
	assert.Empty(t, breaks(in, pl))
}
