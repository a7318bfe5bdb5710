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
