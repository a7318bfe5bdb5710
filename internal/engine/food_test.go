package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/dinner"
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
	assert.Equal(t, "110 g", v.fact("one weighs"))
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

// TestNutritionOfPlates: a plate of 100 g of the trout of USDA SR28 15114 (148 kcal there, 143
// by the EU's factors of its fat and protein); the walnuts that are left out are not counted.
func TestNutritionOfPlates(t *testing.T) {
	p, _ := openMenu(t, fishFiles, "menu.md")
	call[CompositionsView](t, p.e, "compositions", CompositionsCall{Text: composition.Text()})
	plates := func() []SheetPlate { return call[SheetView](t, p.e, "sheet", DinnerCall{Dinner: p.dinner}).Plates }
	all := plates()
	require.Len(t, all, 2)
	assert.Equal(t, "Main Trout", all[0].Allergens.Course+" "+all[0].Allergens.Plate)
	with := all[0].Nutrition.EUPortion[1].Value
	p.tap(dinner.Event{Kind: dinner.KindLeave, On: "trout/item/2", Done: true})
	all = plates()
	assert.InDelta(t, 6.61, all[0].Nutrition.EUPortion[1].Value, 0.01, "g of fat in 100 g, SR28 15114")
	assert.InDelta(t, 6.52, with-all[0].Nutrition.EUPortion[1].Value, 0.1, "g of fat in 10 g of walnuts, SR28 12155: 65.21 in 100 g")
	assert.Equal(t, "143", all[0].Nutrition.EUPortion[0].Text[len("598 kJ / "):][:3])
}
