package larder

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// factsOf returns what is known of an item, by the word of each fact.
func factsOf(t *testing.T, item string) map[string]Fact {
	t.Helper()
	d, ok := (*Foods)(nil).Describe(item, nil)
	require.True(t, ok, item)
	out := map[string]Fact{}
	for _, f := range d.Facts() {
		out[f.Word] = f
	}
	return out
}

// TestFactsHaveTheirSources: figures of USDA SR28 (WEIGHT and Refuse of row 11282, read in
// testdata/reference/sr28.csv); keeping days are common practice, no source.
func TestFactsHaveTheirSources(t *testing.T) {
	onion := factsOf(t, "onions")
	assert.Equal(t, Fact{"one weighs", "110 g", "SR28 11282", false}, onion["one weighs"])
	assert.Equal(t, Fact{"trim", "10 %", "SR28 11282", false}, onion["trim"])
	assert.Equal(t, Fact{"allergens", "none of the two lists", "own compilation", false}, onion["allergens"])
	assert.Equal(t, "common practice", onion["keeps"].Source)
	assert.NotContains(t, onion, "density", "what is not known is left out")
	assert.Equal(t, "EU: gluten", factsOf(t, "oat milk")["allergens"].Value, "a list with nothing of it is not named")
}

// TestFactsOfABroaderFoodAreAssumed: what another food lends is marked, each time.
func TestFactsOfABroaderFoodAreAssumed(t *testing.T) {
	chopped := factsOf(t, "finely sliced onions")
	assert.True(t, chopped["as for"].Assumed)
	for _, word := range []string{"allergens", "trim", "one weighs"} {
		require.Contains(t, chopped, word)
		assert.True(t, chopped[word].Assumed, "%v", chopped[word])
	}
	for word, f := range factsOf(t, "onions") {
		assert.False(t, f.Assumed, word)
	}
}

// Goods that share a word and are not the same in a shop are never merged, so that the order list
// does not buy one for the other: common practice, no source. Each was one row once.
func TestGoodsThatAreNotTheSame(t *testing.T) {
	for _, pair := range [][2]string{
		{"corn flour", "cornflour"}, {"masa harina", "cornflour"}, {"rice vermicelli", "vermicelli"}, {"semi-dried tomatoes", "sun-dried tomatoes"}, {"tuna in oil", "tuna in brine"},
		{"tamarind pulp", "tamarind concentrate"}, {"vanilla essence", "vanilla extract"}, {"blackstrap molasses", "black treacle"}, {"gluten-free soy sauce", "soy sauce"},
		{"hake", "cod"}, {"fresh yeast", "dried yeast"}, {"double cream", "whipping cream"}, {"red wine vinegar", "white wine vinegar"}, {"rapeseed oil", "sunflower oil"}, {"chicken wings", "chicken backs"},
		{"beef shin", "beef"}, {"tinned tomatoes", "tomatoes"}, {"peppers", "black pepper"},
	} {
		a, b := Nearest(pair[0]), Nearest(pair[1])
		assert.False(t, a.Food != nil && a.Food == b.Food && a.Same && b.Same, "%s and %s", pair[0], pair[1])
	}
	for _, same := range [][2]string{{"gelatin sheets", "leaf gelatine"}, {"scallions", "spring onions"}, {"eggplant", "aubergine"}} {
		a, b := Nearest(same[0]), Nearest(same[1])
		assert.True(t, a.Same && b.Same && a.Food == b.Food, "%s and %s", same[0], same[1])
	}
}
