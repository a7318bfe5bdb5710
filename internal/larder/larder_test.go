package larder

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

func rows(t *testing.T, file string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/" + file)
	require.NoError(t, err)
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	return all[1:]
}

func TestFindReadsWhatCooksType(t *testing.T) {
	for item, want := range map[string]string{
		"red onions, sliced": "red onion", "Onions": "onion", "unsalted butter": "butter", "bay leaves": "bay leaf", "tomatoes": "tomato", "RIPE tomatoes": "tomato",
		"egg yolks": "egg yolk", "hen's eggs": "egg", "strong white bread flour": "strong flour", "flat-leaf parsley": "parsley", "crème fraîche": "creme fraiche",
		"gelatine leaves": "gelatine", "strawberries": "strawberry", "shallots (banana)": "shallot", "pigs' trotters": "pig's trotter", "Rib-eye  steak": "rib eye steak",
		"loaves": "loaf", "calves' liver": "calf's liver", "jalapeños": "jalapeno", "quiches": "quiche", "gratins": "",
	} {
		f, ok := Find(item)
		if assert.Equal(t, want != "", ok, item) && ok {
			assert.Equal(t, want, f.Name, item)
		}
	}
}

// No word is taken away to make a match: each of these is another good than the food
// that its last word names.
func TestFindDoesNotGuess(t *testing.T) {
	for item, not := range map[string]string{"butternut squash": "squash", "coconut milk": "milk", "oyster mushrooms": "oyster", "rice milk": "milk", "cocoa butter": "butter", "peanut butter": "butter",
		"water chestnuts": "water", "egg plant": "egg", "frozen peas": "pea", "frozen spinach": "spinach", "smoked trout": "trout", "tinned tomatoes": "tomato", "pickled onions": "onion",
		"powdered egg": "egg", "oat milk": "milk", "vegan butter": "butter", "large onions": "onion", "softened butter": "butter", "fresh parsley": "parsley", "": ""} {
		f, ok := Find(item)
		assert.False(t, ok && f.Name == not, "%q is taken for %s", item, not)
	}
}

func TestConvert(t *testing.T) {
	unit := func(w string) *quantity.Unit {
		u, ok := quantity.LookupUnit(w)
		require.True(t, ok, w)
		return u
	}
	for _, tt := range []struct {
		item     string
		n        int64
		from, to string
		want     float64
		source   string
	}{
		{"honey", 1, "cup", "g", 339, "USDA SR28 WEIGHT: 1 cup = 339 g"},
		{"plain flour", 1, "cup", "g", 125, "USDA SR28 WEIGHT: 1 cup = 125 g"},
		{"garlic", 3, "clove", "g", 9, "USDA SR28 WEIGHT: 3 cloves = 9 g"},
		{"spinach", 1, "bunch", "g", 340, "USDA SR28 WEIGHT: 1 bunch = 340 g"},
		{"milk", 1, "L", "g", 1031, "USDA SR28 WEIGHT: 1 cup = 244 g"},
	} {
		got, basis, err := Convert(tt.item, quantity.Int(tt.n), unit(tt.from), unit(tt.to), Own{})
		require.NoError(t, err, tt.item)
		assert.InEpsilon(t, tt.want, got.Float64(), 0.0005, "%s; source: %s", tt.item, tt.source)
		assert.Contains(t, basis, "SR28")
	}
	_, _, err := Convert("quince paste", quantity.Int(1), unit("cup"), unit("g"), Own{})
	assert.ErrorContains(t, err, "is not known")
	_, _, err = Convert("honey", quantity.Int(2), unit("clove"), unit("g"), Own{})
	assert.ErrorContains(t, err, `put "each" on the card`)
	got, basis, err := Convert("quince paste", quantity.Int(2), unit("L"), unit("kg"), Own{Density: quantity.Frac(13, 10)})
	require.NoError(t, err)
	assert.Equal(t, "13/5", got.String())
	assert.Equal(t, "density from the card", basis)
}

func TestShowOfCountableItems(t *testing.T) {
	leaf, _ := quantity.LookupUnit("leaf")
	clove, _ := quantity.LookupUnit("clove")
	for _, tt := range []struct {
		item, why   string
		qty         quantity.Number
		unit        *quantity.Unit
		text, aside string
	}{
		{"eggs", "3.4 × 50 g (USDA SR28, large, shelled)", quantity.Frac(34, 10), quantity.Each, "170 g", "crack 4"},
		{"eggs", "whole ones stay as they are", quantity.Int(3), quantity.Each, "3", ""},
		{"gelatine", "2.7 leaves of 1.6 g (common practice, no source)", quantity.Frac(27, 10), leaf, "4.3 g", "2.7 leaves"},
		{"gelatine, silver", "the strength as the packet has it (from memory)", quantity.Frac(27, 10), leaf, "4.3 g", "2.7 leaves, 160 Bloom by trade practice"},
		{"gold gelatine leaves", "whole leaves, with their weight", quantity.Int(5), leaf, "5 leaves", "8 g, 190–220 Bloom by trade practice"},
		{"bay leaves", "only whole ones exist", quantity.Frac(23, 10), quantity.Each, "3", ""},
		{"star anise", "only whole ones exist", quantity.Frac(3, 2), quantity.Each, "2", ""},
		{"garlic", "2.5 × 3 g (USDA SR28)", quantity.Frac(5, 2), clove, "7.5 g", "2.5 cloves"},
		{"onions", "2.5 × 110 g (USDA SR28, medium)", quantity.Frac(5, 2), quantity.Each, "275 g", "from 3"},
		{"small onions", "2.5 × 70 g (USDA SR28)", quantity.Frac(5, 2), quantity.Each, "175 g", "from 3"},
		{"large onions", "2.5 × 150 g (USDA SR28)", quantity.Frac(5, 2), quantity.Each, "375 g", "from 3"},
		{"parsley", "half a bunch is what a cook would say", quantity.Frac(3, 2), mustUnit(t, "bunch"), "1 ½ bunches", ""},
		{"thyme", "and a sprig", quantity.Frac(5, 2), mustUnit(t, "sprig"), "2 ½ sprigs", ""},
		{"celery", "and a head", quantity.Frac(1, 2), mustUnit(t, "head"), "½ head", ""},
		{"celery", "and a stalk", quantity.Frac(3, 2), mustUnit(t, "stalk"), "1 ½ stalks", ""},
		{"moonflowers", "what one weighs is not known", quantity.Frac(5, 2), quantity.Each, "2 ½", ""},
	} {
		text, aside := Show(tt.item, quantity.Amount{Qty: tt.qty, Unit: tt.unit}, Own{}, quantity.Prefs{})
		assert.Equal(t, tt.text, text, "%s: %s", tt.item, tt.why)
		assert.Equal(t, tt.aside, aside, "%s: %s", tt.item, tt.why)
	}
}

func TestGelatineByWeightShowsItsLeaves(t *testing.T) {
	g, _ := quantity.LookupUnit("g")
	a := quantity.Amount{Qty: quantity.Frac(144, 10), Unit: g}
	text, aside := Show("leaf gelatine, silver", a, Own{Each: quantity.Amount{Qty: quantity.Frac(16, 10), Unit: g}}, quantity.Prefs{})
	assert.Equal(t, []string{"14.4 g", "9 leaves, 160 Bloom by trade practice"}, []string{text, aside}, "14.4 g of 1.6 g leaves")
	_, aside = Show("gelatine", a, Own{}, quantity.Prefs{})
	assert.Empty(t, aside, "the card does not say what a leaf weighs")
}

// No publication with the strengths of leaves was read. Each row says MEMORY, and the
// cook is shown that the figure is trade practice.
func TestBloomsAreMarkedAsTradePractice(t *testing.T) {
	rowOf := map[string][]string{}
	for _, r := range rows(t, "ratios.csv") {
		rowOf[r[0]] = r
	}
	for _, b := range blooms {
		r, ok := rowOf["leaf_"+b.grade]
		require.True(t, ok, b.grade)
		assert.Equal(t, r[3]+" "+r[4], strings.ReplaceAll(b.bloom, "–", "-"), "%s; %s", b.grade, r[6])
		assert.Equal(t, "MEMORY", r[7], b.grade)
		_, aside := Show("gelatine, "+b.grade, quantity.Amount{Qty: quantity.Int(2), Unit: mustUnit(t, "leaf")}, Own{}, quantity.Prefs{})
		assert.Contains(t, aside, b.bloom+" by trade practice")
	}
}

func mustUnit(t *testing.T, word string) *quantity.Unit {
	t.Helper()
	u, ok := quantity.LookupUnit(word)
	require.True(t, ok, word)
	return u
}
