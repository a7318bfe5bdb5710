package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// The row of USDA SR28 for each figure of the table: nutrient data bank number, then
// the words of the measure. All rows were read (their status says so).
var (
	densityRows = map[string]string{
		"lemon juice": "09152/cup", "orange juice": "09206/cup", "egg": "01123/cup (4.86 large eggs)", "egg yolk": "01125/cup", "egg white": "01124/cup",
		"butter": "01145/cup", "milk": "01077/cup", "buttermilk": "01088/cup", "cream": "01053/cup, fluid (yields 2 cups whipped)",
		"sour cream": "01056/cup", "creme fraiche": "01056/cup", "yoghurt": "01116/cup (8 fl oz)", "ricotta": "01036/cup", "parmesan": "01032/cup",
		"plain flour": "20081/cup", "strong flour": "20083/cup", "wholemeal flour": "20080/cup", "rice flour": "20061/cup", "cornflour": "20027/cup",
		"semolina": "20066/cup", "polenta": "20020/cup", "rolled oat": "08120/cup", "caster sugar": "19335/cup", "icing sugar": "19336/cup unsifted",
		"brown sugar": "19334/cup packed", "honey": "19296/cup", "salt": "02047/cup", "black pepper": "02030/tsp, ground",
		"baking powder": "18369/tsp", "bicarbonate of soda": "18372/tsp", "dried yeast": "18375/tsp", "ground almonds": "12061/cup, ground",
		"olive oil": "04053/cup", "sunflower oil": "04582/cup", "white wine vinegar": "02053/cup", "cider vinegar": "02048/cup",
		"dijon mustard": "02046/cup", "caper": "02054/tbsp, drained", "tomato paste": "11546/cup", "white wine": "14106/fl oz", "red wine": "14096/fl oz",
	}
	trimRows = map[string]string{
		"onion": "11282", "spring onion": "11291", "shallot": "11677", "leek": "11246", "garlic": "11215", "ginger": "11216", "carrot": "11124",
		"celery": "11143", "celeriac": "11141", "parsnip": "11298", "beetroot": "11080", "potato": "11352", "fennel": "11957", "asparagus": "11011",
		"courgette": "11477", "cucumber": "11205", "radish": "11429", "pea in the pod": "11304", "broad bean": "11088", "spinach": "11457",
		"watercress": "11591", "lettuce": "11251", "tomato": "11529", "button mushroom": "11260", "red pepper": "11821", "parsley": "11297",
		"dill": "02045", "mint": "02064", "basil": "02044", "apple": "09003", "strawberry": "09316", "raspberry": "09302", "rhubarb": "09307",
		"chicken": "05006",
	}
	eachRows = map[string]string{
		"onion/each": "11282/large", "onion/onion": "11282/large", "spring onion/each": "11291/medium (4-1/8\" long)", "leek/each": "11246/leek",
		"garlic/clove": "11215/clove", "carrot/each": "11124/medium", "celery/stalk": "11143/stalk, medium (7-1/2\" - 8\" long)",
		"celery/stick": "11143/stalk, medium (7-1/2\" - 8\" long)", "potato/each": "11352/Potato medium (2-1/4\" to 3-1/4\" dia)",
		"spinach/bunch": "11457/bunch", "button mushroom/each": "11260/medium", "red pepper/each": "11821/medium (approx 2-3/4\" long, 2-1/2 dia.)",
		"egg/each": "01123/large", "egg yolk/each": "01125/large", "egg white/each": "01124/large", "butter/stick": "01145/stick",
		"dried yeast/packet": "18375/packet", "parsley/sprig": "11297/sprigs",
	}
)

// TestTableMatchesSR28 compares every figure whose source is SR28 with the published
// row, with the same rounding. A figure without a row fails: its source is then
// something else and must say so.
func TestTableMatchesSR28(t *testing.T) {
	density, weight := map[string]string{}, map[string]quantity.Number{}
	for _, r := range rows(t, "densities.csv") {
		key := r[0] + "/" + r[3]
		if _, twice := density[key]; !twice || r[2] == "1" {
			density[key], weight[key] = r[6], number(r[4]).Quo(number("0"+r[2]))
		}
	}
	refuse := map[string]string{}
	for _, r := range rows(t, "yields.csv") {
		if r[2] == "trim" {
			refuse[r[0]] = r[3]
		}
	}
	checked := 0
	for _, f := range foods {
		if !strings.HasPrefix(f.Source, "SR28") {
			continue
		}
		own := func(what string) bool { return strings.Contains(f.Source, what+" OWN") }
		if f.Density.Sign() > 0 {
			row, ok := densityRows[f.Name]
			require.True(t, ok, "%s names no row for its density", f.Name)
			assert.Zero(t, number(density[row]).Cmp(f.Density), "%s: %s g/ml; USDA SR28 WEIGHT, %s: %s", f.Name, f.Density, row, density[row])
			checked++
		}
		if f.Trim.Sign() > 0 {
			row, ok := trimRows[f.Name]
			require.True(t, ok, "%s names no row for its trim", f.Name)
			assert.Equal(t, refuse[row], f.Trim.Mul(quantity.Int(100)).String(), "%s; USDA SR28 Refuse, %s", f.Name, row)
			checked++
		}
		for unit, grams := range f.Each {
			if own(unit) || strings.HasPrefix(f.Source, "SR28 trim") {
				continue
			}
			row, ok := eachRows[f.Name+"/"+unit]
			require.True(t, ok, "%s names no row for its %s", f.Name, unit)
			assert.Zero(t, weight[row].Cmp(grams), "%s: one %s %s g; USDA SR28 WEIGHT, %s: %s", f.Name, unit, grams, row, weight[row])
			checked++
		}
	}
	assert.Equal(t, len(densityRows)+len(trimRows)+len(eachRows), checked, "every row named is used")
}
