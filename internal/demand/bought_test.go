package demand

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/kitchen"
)

// linesOf returns the order list of a dinner by name.
func linesOf(t *testing.T, in Input, shop Shop) map[string]Line {
	t.Helper()
	d, problems := Explode(in)
	require.Empty(t, problems)
	out := map[string]Line{}
	for _, l := range Order(d, shop) {
		require.NotContains(t, out, l.Name)
		out[l.Name] = l
	}
	return out
}

// TestOrderKeepsGradesAndStates for ten covers. Of peas in the pod 62 % is refuse (USDA SR28
// 11304): 380 g ÷ 0.38 = 1 kg; what is bought podded loses nothing more. The price is the food's.
func TestOrderKeepsGradesAndStates(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "38 g peas, bought in the pod", "20 g [Soup](soup.md)", "1 g salt, flaked", "2 g salt"),
		"soup":  made("makes: 200 g", "100 g peas, bought podded", "5 g salt, fine", "6 g fine salt", "120 g water", "9 g leaf gelatine, gold, each 2 g", "3 g leaf gelatine, each 2 g"),
	})
	k, problems := kitchen.Parse("k.md", []byte("---\ncooks: 1\nhob: 1\n---\n\n# K\n\n## Hours\n\n- Saturday 08:00–12:00\n\n## Prices\n\n- salt: €2 per kg\n"))
	require.Empty(t, problems)
	lines := linesOf(t, in, Shop{Prices: k.Prices})
	for name, buy := range map[string]string{
		"pea, in the pod": "1 kg", "pea, podded": "100 g", "salt": "20 g", "salt, flaked": "10 g", "salt, fine": "11 g", "gelatine, gold": "9 g", "gelatine": "3 g",
	} {
		require.Contains(t, lines, name)
		assert.Equal(t, buy, asked(lines[name].Buy), name)
	}
	assert.Equal(t, "pea-in-the-pod", lines["pea, in the pod"].Slug)
	for _, name := range []string{"salt", "salt, flaked", "salt, fine"} {
		assert.True(t, lines[name].Priced, name)
	}
}

// TestOrderAddsIce by hand: 10 kg of stock from 100 °C to 5 °C give off 10 × 4.18 × 95 = 3971 kJ, which
// melt 11.9 kg of ice at 334 kJ a kilo; with half as much again 17.83 kg. From 20 °C to 8 °C 2.25 kg.
func TestOrderAddsIce(t *testing.T) {
	for _, tt := range []struct{ steps, item, want string }{
		{"1. Boil the **water**.\n   - hob: 1 ring\n2. Cool it.\n   - ice bath\n   - cool: 5 °C within 1 h", "10 kg water", "17.9 kg"},
		{"1. Mix the **water**.\n2. Cool it.\n   - ice bath\n   - cool: 8 °C within 1 h", "10 kg water", "2.26 kg"},
		{"1. Boil the **water**.\n   - hob: 1 ring\n2. Cool it.\n   - fridge\n   - cool: 5 °C within 1 h", "10 kg water", ""},
		{"1. Boil the **water** with the **ice**.\n   - hob: 1 ring\n2. Cool it.\n   - ice bath\n   - cool: 5 °C within 1 h", "9 kg water\n- 1 kg crushed ice", ""},
	} {
		stock := "---\nmakes: 10 kg\nportion: 1 kg\n---\n\n# Stock\n\n## Formula\n\n- " + tt.item + "\n\n## Method\n\n" + tt.steps + "\n"
		menu := "---\ncovers: 10\nserve: 2027-06-12 19:30\n---\n\n# Supper\n\n## Soup\n\n- [Stock](stock.md)\n"
		l := linesOf(t, dinner(t, menu, map[string]string{"stock": stock}), Shop{})["ice"]
		assert.Equal(t, tt.want, asked(l.Buy), tt.steps)
	}
}
