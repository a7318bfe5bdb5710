package demand

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// What one asks for across a counter gets coarser with the amount: half a gram to
// 20 g, a gram to 100 g, 5 g to a kilogram, 10 g to 10 kg, 100 g above. Common
// practice, no source.
func TestStepsOfTheOrderList(t *testing.T) {
	for in, want := range map[string]string{
		"0.2 g": "0.5 g", "19.6 g": "20 g", "20 g": "20 g", "20.2 g": "21 g", "25.5 g": "26 g", "99.5 g": "100 g", "100 g": "100 g", "100.5 g": "105 g", "110.5 g": "115 g",
		"996 g": "1 kg", "1000 g": "1 kg", "1001 g": "1.01 kg", "1101 g": "1.11 kg", "9.991 kg": "10 kg", "10 kg": "10 kg", "10.001 kg": "10.1 kg", "11.01 kg": "11.1 kg",
		"12.01 kg": "12.1 kg", "20.2 ml": "21 ml", "1101 ml": "1.11 L", "2 cloves": "2 cloves", "2.01 cloves": "3 cloves",
	} {
		assert.Equal(t, want, quantity.Show(roundUp(amount(t, in)), quantity.Prefs{Scale: quantity.Frac(1, 10)}), in)
	}
}

// The order of a list to buy, and every section that the food table uses: common
// practice, no source.
func TestSectionsOfTheOrderList(t *testing.T) {
	want := strings.Split("dry goods, oils and vinegars, tins and jars, drinks, vegetables, fruit, herbs, bread, other, dairy and eggs, meat, fish, frozen", ", ")
	for i, s := range want {
		assert.Equal(t, i, place(s), s)
	}
	assert.Equal(t, len(want), place("somewhere else"))
}

func TestWordsThatLeaveTheTrimOn(t *testing.T) {
	for _, prep := range []string{"unpeeled", "Untrimmed", "skin on", "with skin", "in the pod", "roasted in its skin", "as bought", "whole", "left whole, scrubbed"} {
		assert.True(t, Untrimmed(prep), prep)
	}
	for _, prep := range []string{"", "peeled", "sliced", "trimmed", "skinned"} {
		assert.False(t, Untrimmed(prep), prep)
	}
}

// Trim is a share of the weight as purchased: AP = EP ÷ (1 − trim). A count has no
// trim, a trimmed onion is one onion; a volume has. By hand, with 20 % lost.
func TestTrimIsAddedToWeightsAndVolumesAlone(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "8 g rocket, trim 20 %", "8 ml moonflower juice, trim 20 %", "1 quince, trim 20 %")})
	for name, want := range map[string]string{"rocket": "100 g", "moonflower juice": "100 ml", "quince": "10"} {
		assert.Equal(t, want, asked(lineOf(t, in, Shop{}, name).Buy), name)
	}
}

func TestMostBatchesAndLotsOfACard(t *testing.T) {
	in := dinner(t, supper, map[string]string{
		"plate": made("makes: 1 plate", "200 g [Soup](soup.md)"),
		"soup":  made("makes: 1 kg\nlargest: 1 g", "1 kg peas"),
	})
	d, problems := Explode(in)
	assert.Len(t, d.ByCard["soup"].Batches, 500, "2000 g a gram at a time are a slip of the finger")
	require.Len(t, problems, 1)
	assert.Contains(t, problems[0].Msg, "made 500 times over")

	in = sauces(t)
	in.Apart = Apart{"sauce": {{By: "fish", Item: 1}: 1, {By: "meat", Item: 1}: 25}}
	d, _ = Explode(in)
	most := 0
	for _, u := range d.ByCard["sauce"].Uses {
		most = max(most, u.Lot)
	}
	assert.Equal(t, 20, most)
}

// Ten yolks and four whites come from ten eggs, four yolks and ten whites as well.
// A yolk is 17 g and a white 33 g (USDA SR28).
func TestEggsAreBoughtForTheMoreOfYolksAndWhites(t *testing.T) {
	for items, want := range map[string]string{"1 egg yolk; 13.2 g egg whites": "10", "6.8 g egg yolks; 1 egg white": "10", "1 egg yolk": "10", "3.4 g egg yolks; 6.6 g egg whites": "2"} {
		in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", strings.Split(items, "; ")...)})
		assert.Equal(t, want, asked(lineOf(t, in, Shop{}, "egg").Buy), items)
	}
}

// A stock that gives 99 % of what is wanted is enough at 99 hundredths of a portion,
// and one that gives half at 50: no portion is cut further than it must be.
func TestPortionIsTheLargestThatReaches(t *testing.T) {
	for grams, want := range map[string][2]string{"1.9801 kg": {"99/100", "199/10000"}, "1.85 kg": {"23/25", "3/20"}, "1 kg": {"1/2", "1/10"}} {
		in := dinner(t, supper, map[string]string{
			"plate": made("makes: 1 plate", "200 g [Soup](soup.md)"),
			"soup":  made("makes: 2 kg\ntop up: water, up to 10 %", "2 kg peas"),
		})
		in.Made = map[string][]Made{"soup": {{Batch: 1, Amount: amount(t, grams)}}}
		d, _ := Explode(in)
		means := Consequences(in, d)
		require.Len(t, means, 1)
		assert.Equal(t, want[0], means[0].Portion.String(), grams)
		assert.Equal(t, want[1], means[0].TopUp.String(), "%s: a tenth of it, and no more than is missing", grams)
	}
}

func TestFloursAreTheHundredOfAFormula(t *testing.T) {
	in := dinner(t, supper, map[string]string{"plate": made("makes: 1 plate", "300 g strong flours", "100 g rye flour", "800 g water", "8 g salt")})
	ratios, whole := Ratios(in.Cards["plate"], nil)
	assert.Equal(t, "1208", whole.String())
	var got []string
	for _, r := range ratios {
		got = append(got, r.Percent.String())
	}
	assert.Equal(t, []string{"75", "25", "200", "2"}, got, "400 g of flour are 100 %")
	assert.Equal(t, []larder.Certainty{larder.Always, larder.Usually, larder.Probably, larder.May}, larder.Certainties)
}
