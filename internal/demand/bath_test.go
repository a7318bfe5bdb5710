package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
	"hobside/internal/larder/composition"
)

// bathed writes a card with a formula and one step.
func bathed(makes, formula, step string) string {
	return "---\nmakes: " + makes + "\n---\n\n# Card\n\n## Formula\n\n" + formula + "\n\n## Method\n\n1. " + step + "\n   - hands: 5 min\n"
}

// Of a marinade that is drained off, a tenth of the weight of what lies in it stays: our own
// working assumption, no source. Fat of sunflower oil is all of it (SR28 04506), of potatoes
// 0.09 % (SR28 11352).
func TestMarinadeCountsByWhatStays(t *testing.T) {
	for _, tt := range []struct {
		name, formula, step string
		oil                 float64 // grams that are counted
		assumed             string
	}{
		{"drained", "- 500 g potatoes\n- 200 g sunflower oil, for the marinade", "Lie **potatoes** in **sunflower oil**, then drain.", 50, "the marinade of Card is not eaten whole: a tenth"},
		{"of two items", "- 500 g potatoes\n- 150 g sunflower oil, for marinating\n- 50 g lemon juice, for marinating", "Lie **potatoes** in the **sunflower oil** and **lemon juice**. Pat dry.", 37.5, "is taken to stay"},
		{"under a heading", "- 500 g potatoes\n\n### Marinade\n\n- 200 g sunflower oil", "Lie **potatoes** in **sunflower oil**; rinse.", 50, "is taken to stay"},
		{"little of it", "- 500 g potatoes\n- 20 g sunflower oil, for the marinade", "Rub **potatoes** with **sunflower oil** and wipe.", 20, ""},
		{"eaten", "- 500 g potatoes\n- 200 g sunflower oil, for the marinade", "Cook **potatoes** in **sunflower oil** and serve it.", 200, "counted whole: no step takes the food out of it"},
		{"only a word of it", "- 500 g potatoes\n- 200 g sunflower oil, in brine", "Cook **potatoes** in **sunflower oil**, then drain.", 200, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			in := dinner(t, supper, map[string]string{"plate": bathed("500 g", tt.formula, tt.step)})
			f := NutritionOf(in.Cards, "plate", composition.Rows())
			assert.InDelta(t, tt.oil+500*0.0009, f.Nutrition.Has[larder.Fat], 0.3)
			assert.InDelta(t, 1, f.Share(), 1e-9, "%v", f.Missing)
			assert.Contains(t, strings.Join(f.Assumed, "; "), tt.assumed)
			if tt.assumed == "" {
				assert.Empty(t, f.Assumed)
			}
		})
	}
}

// A marinade may be a card of its own; what is only named after one is eaten.
func TestMarinadeOfAnotherCard(t *testing.T) {
	cards := map[string]string{
		"plate": bathed("500 g", "- 500 g potatoes\n- 200 g [Oil](oil.md)", "Lie **potatoes** in the **oil**, then drain."),
		"oil":   strings.Replace(made("makes: 200 g", "200 g sunflower oil"), "# Card", "# Herb marinade", 1),
	}
	f := NutritionOf(dinner(t, supper, cards).Cards, "plate", composition.Rows())
	assert.InDelta(t, 50+0.45, f.Nutrition.Has[larder.Fat], 0.3)
	require.Len(t, f.Assumed, 1)

	cards["oil"] = strings.Replace(cards["oil"], "# Herb marinade", "# Pickling liquor", 1)
	f = NutritionOf(dinner(t, supper, cards).Cards, "plate", composition.Rows())
	assert.InDelta(t, 50+0.45, f.Nutrition.Has[larder.Fat], 0.3)

	cards["oil"] = strings.Replace(cards["oil"], "# Pickling liquor", "# Marinated oil", 1)
	f = NutritionOf(dinner(t, supper, cards).Cards, "plate", composition.Rows())
	assert.InDelta(t, 200+0.45, f.Nutrition.Has[larder.Fat], 0.3)
	assert.Empty(t, f.Assumed)
}

// Two fats for frying count together by what stays.
func TestTwoFryingFatsCountTogether(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 500 g", "500 g potatoes", "1 kg sunflower oil, for frying", "1 kg rapeseed oil, for frying")})
	f := NutritionOf(in.Cards, "plate", composition.Rows())
	assert.InDelta(t, 50+0.45, f.Nutrition.Has[larder.Fat], 0.3)
}
