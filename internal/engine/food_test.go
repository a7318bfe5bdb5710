package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder/composition"
)

// fact returns the value of a fact of a food, "" for one that is not known.
func (v *FoodView) fact(word string) string {
	for _, f := range v.Facts {
		if f.Word == word {
			return f.Value
		}
	}
	return ""
}

// TestFoodTellsWhatIsKnown: the weight of an onion is that of USDA SR28 11282. Energy is
// told when the compositions are there, not before: 40 kcal in SR28, 39 by the EU's factors.
func TestFoodTellsWhatIsKnown(t *testing.T) {
	p, _ := demo(t)
	v := call[FoodView](t, p.e, "food", FoodCall{Name: "onions", Dinner: p.dinner, Card: "light-chicken-stock", Item: 3})
	assert.True(t, v.Known)
	assert.True(t, v.Same)
	assert.Equal(t, "150 g", v.fact("one weighs"))
	assert.False(t, v.Compositions)
	assert.Empty(t, v.Per100)
	require.NotEmpty(t, v.Here)
	assert.Equal(t, "10 %", v.Here[0].Value, "trim of the card's line")

	n := call[CompositionsView](t, p.e, "compositions", CompositionsCall{Text: composition.Text()})
	assert.Equal(t, len(composition.Rows()), n.Foods)
	v = call[FoodView](t, p.e, "food", FoodCall{Name: "onions"})
	assert.True(t, v.Compositions)
	require.Len(t, v.Per100, 8, "the eight lines of Regulation (EU) No 1169/2011 Annex XV")
	assert.Equal(t, "166 kJ / 39 kcal", v.Per100[0].Text)
	assert.Contains(t, v.Per100Source, "SR28 11282")
	assert.Empty(t, v.Here, "no card was named")
}

// TestFoodThatIsNotKnown: nothing is made up, and the nearest word is asked about.
func TestFoodThatIsNotKnown(t *testing.T) {
	v := call[FoodView](t, New(), "food", FoodCall{Name: "unions"})
	assert.False(t, v.Known)
	assert.Contains(t, v.DidYouMean, "onion")
	assert.Empty(t, v.Facts)
	assert.Contains(t, string(New().Call("compositions", []byte(`{"text":"nothing of the kind"}`))), "fetch it again")
}

// TestCardHasNutritionOnceCompositionsAreLoaded: without them a card has none.
func TestCardHasNutritionOnceCompositionsAreLoaded(t *testing.T) {
	p, _ := demo(t)
	call[LibraryView](t, p.e, "load", LoadCall{Files: []File{{"rice.md", "---\nmakes: 300 g\n---\n# Rice\n\n## Formula\n\n- 100 g white rice\n- 200 g water\n\n## Method\n\n1. Boil the **white rice** in the **water**.\n"}}})
	assert.Nil(t, call[PageView](t, p.e, "read", ReadCall{Name: "rice.md"}).Card.Nutrition)
	call[CompositionsView](t, p.e, "compositions", CompositionsCall{Text: composition.Text()})
	n := call[PageView](t, p.e, "read", ReadCall{Name: "rice.md"}).Card.Nutrition
	require.NotNil(t, n)
	assert.GreaterOrEqual(t, n.Share, 0.95)
	assert.NotEmpty(t, n.EU)
}
