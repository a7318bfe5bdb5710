package demand

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
	"hobside/internal/larder/composition"
)

// TestCookedFoodsAreTheSumOfTheirRawParts cooks raw foods of USDA SR28 by our sum and
// compares the result with SR28's own row of the cooked food, read: within 10 % of the
// energy, and of fat, carbohydrate and protein where they are a gram or more.
func TestCookedFoodsAreTheSumOfTheirRawParts(t *testing.T) {
	file, err := os.Open("../../testdata/reference/sr28cooked.csv")
	require.NoError(t, err)
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	require.NoError(t, err)
	cooked := map[string][]string{}
	for _, r := range all[1:] {
		cooked[r[0]] = r
	}
	table := composition.Rows()
	pairs := 0
	for _, tt := range []struct {
		row, name string
		makes     float64 // grams: the water of SR28's cooked row decides what it weighs
		items     []string
	}{
		{"20045", "boiled white rice", 280, []string{"100 g long-grain rice", "250 g water"}},
		{"20037", "boiled brown rice", 297, []string{"100 g brown rice", "250 g water"}},
		{"16070", "boiled lentils", 302, []string{"100 g lentils", "250 g water"}},
		{"16057", "boiled chickpeas", 232, []string{"100 g chickpeas", "250 g water"}},
		{"16033", "boiled kidney beans", 267, []string{"100 g kidney beans", "250 g water"}},
		{"16043", "boiled pinto beans", 239, []string{"100 g pinto beans", "250 g water"}},
		{"16015", "boiled black beans", 260, []string{"100 g black beans", "250 g water"}},
		{"20029", "steamed couscous", 333, []string{"100 g couscous", "250 g water"}},
		{"20137", "boiled quinoa", 305, []string{"100 g quinoa", "250 g water"}},
		{"20121", "boiled pasta", 238, []string{"100 g dried pasta", "250 g water"}},
		{"20013", "boiled bulgur", 409, []string{"100 g bulgur", "250 g water"}},
		{"20089", "boiled wild rice", 354, []string{"100 g wild rice", "250 g water"}},
		{"01130", "plain omelette", 100, []string{"84 g egg", "4 g butter", "12 g water"}},
	} {
		r := cooked[tt.row]
		require.NotNil(t, r, tt.row)
		in := dinner(t, supper, map[string]string{"plate": made(fmt.Sprintf("makes: %v g", tt.makes), tt.items...)})
		f := NutritionOf(in.Cards, "plate", table)
		require.Equal(t, 1.0, f.Share(), "%s: %v", tt.name, f.Missing)
		per := f.Nutrition.Per(100, f.Grams)
		want := func(i int) float64 {
			var x float64
			_, err := fmt.Sscan(r[i], &x)
			require.NoError(t, err)
			return x
		}
		assert.InEpsilon(t, want(7), per.Kilocalories()+2*per.Has[larder.Fibre], 0.1, "%s: kcal; SR28 %s has the fibre at 4 kcal a gram", tt.name, tt.row)
		for nutrient, column := range map[larder.Nutrient]int{larder.Protein: 8, larder.Fat: 9, larder.Carbohydrate: 11} {
			if w := want(column); w >= 1 {
				assert.InEpsilon(t, w, per.Has[nutrient], 0.1, "%s: nutrient %d; SR28 %s", tt.name, nutrient, tt.row)
			}
		}
		pairs++
	}
	assert.GreaterOrEqual(t, pairs, 10)
}

// What goes in comes out again through components, and by-products take their share.
func TestNutritionGoesThroughComponents(t *testing.T) {
	table := composition.Rows()
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 2 plates", "100 g [Cream](sauce.md)", "100 g caster sugar"),
		"sauce": made("makes: 400 g", "200 g butter", "250 g water"),
	})
	f := NutritionOf(in.Cards, "plate", table)
	require.Empty(t, f.Missing)
	assert.InDelta(t, 2, f.Portions, 0)
	// A quarter of 200 g of butter, 81.11 g of fat in 100 g (SR28 01145), and 100 g of sugar.
	assert.InDelta(t, 0.25*2*81.11, f.Nutrition.Has[larder.Fat], 0.1)
	assert.InDelta(t, 99.98, f.Nutrition.Has[larder.Sugars], 0.2)
	assert.InDelta(t, 1, f.Share(), 1e-9)

	in.Cards["sauce"].Items[0].Name = "moonflower"
	f = NutritionOf(in.Cards, "plate", table)
	assert.Contains(t, f.Missing, "moonflower")
	assert.Less(t, f.Share(), Enough)
}

func TestFryingOilCountsByWhatStays(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 500 g", "500 g potatoes", "2 kg sunflower oil, for frying")})
	f := NutritionOf(in.Cards, "plate", composition.Rows())
	assert.InDelta(t, 50+500*0.0009, f.Nutrition.Has[larder.Fat], 0.2, "a tenth of 500 g, and the potatoes' own")
	require.Len(t, f.Assumed, 1)
	assert.Contains(t, f.Assumed[0], "for frying")
}

func TestZestIsAssumedToWeighNothing(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 100 g", "100 g butter", "zest of 1 lemon")})
	f := NutritionOf(in.Cards, "plate", composition.Rows())
	assert.Empty(t, f.Missing)
	assert.Equal(t, []string{"the zest of lemon is not counted"}, f.Assumed)
}

// Bones and vegetables that are strained off a stock are not eaten: nothing is shown.
func TestStrainedStockHasNoFigure(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": "---\nmakes: 2 kg\n---\n\n# Stock\n\n## Formula\n\n- 2 kg chicken backs\n- 3 kg water\n\n## Method\n\n1. Simmer the **chicken backs** in the **water**, then strain.\n   - hands: 5 min\n"})
	f := NutritionOf(in.Cards, "plate", composition.Rows())
	assert.Zero(t, f.Share())
	assert.Contains(t, f.Missing, "what is strained off Stock")
	assert.False(t, math.IsNaN(f.Nutrition.Kilojoules()))
}

// Yolks and whites together are the egg: what is set aside takes its own composition with
// it. SR28 01123, 01124 and 01125 agree within 5 % of the fat.
func TestByProductTakesItsOwnComposition(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": "---\nmakes: 170 g\n---\n\n# Yolks\n\n## Formula\n\n- 500 g egg\n\n## Method\n\n1. Part the **egg**.\n   - hands: 5 min\n\n## Saves\n\n- egg whites: 330 g\n"})
	f := NutritionOf(in.Cards, "plate", composition.Rows())
	assert.InEpsilon(t, 1.7*26.54, f.Nutrition.Has[larder.Fat], 0.06, "SR28 01125: 26.54 g of fat in 100 g of yolk")
	assert.InDelta(t, 1, f.Share(), 1e-9)
	assert.Empty(t, f.Assumed)
}
