package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Energy factors, the order of the lines and the rounding are those of nutrition.csv,
// whose rows name their sources: the EU's read, the US's from memory.
func TestDeclarationFollowsItsRules(t *testing.T) {
	published := map[string][]string{}
	for _, r := range rows(t, "nutrition.csv") {
		published[r[0]] = r
	}
	one := func(n Nutrient) Nutrition {
		var x Nutrition
		x.Has[n] = 1
		if n == Fibre {
			x.Has[Carbohydrate] = 1 // SR28's carbohydrate is with its fibre
		}
		return x
	}
	for id, n := range map[string]Nutrient{"conv_carb": Carbohydrate, "conv_protein": Protein, "conv_fat": Fat, "conv_alcohol": Alcohol, "conv_fibre": Fibre} {
		kJ, kcal, ok := strings.Cut(published[id][3], ";")
		require.True(t, ok, id)
		assert.InDelta(t, number(kJ).Float64(), one(n).Kilojoules(), 1e-9, "%s; %s", id, published[id][5])
		assert.InDelta(t, number(kcal).Float64(), one(n).Kilocalories(), 1e-9, "%s; %s", id, published[id][5])
	}
	var order []string
	for _, l := range (Nutrition{}).EUDeclaration() {
		order = append(order, l.Name)
	}
	assert.Equal(t, published["order"][3], strings.Join(order, "; "), published["order"][5])
	assert.Equal(t, 2.5, Nutrition{Has: [nutrients]float64{Sodium: 1000}}.Salt(), published["salt"][5])

	text := func(n Nutrient, amount float64) (eu, us string) {
		x := Nutrition{}
		x.Has[n] = amount
		euLine := map[Nutrient]int{Fat: 1, Saturates: 2, Carbohydrate: 3, Sugars: 4, Fibre: 5, Protein: 6, Sodium: 7}
		usLine := map[Nutrient]int{Fat: 1, Saturates: 2, Sodium: 3, Carbohydrate: 4, Fibre: 5, Sugars: 6, Protein: 7}
		return x.EUDeclaration()[euLine[n]].Text, x.USDeclaration()[usLine[n]].Text
	}
	for _, tt := range []struct {
		n      Nutrient
		amount float64
		eu, us string
	}{
		{Fat, 12.4, "12 g", "12 g"}, {Fat, 9.96, "10 g", "10 g"}, {Fat, 3.26, "3.3 g", "3.5 g"}, {Fat, 0.5, "<0.5 g", "0.5 g"}, {Fat, 0.4, "<0.5 g", "0 g"}, {Fat, 0, "0 g", "0 g"},
		{Saturates, 10.2, "10 g", "10 g"}, {Saturates, 0.14, "0.1 g", "0 g"}, {Saturates, 0.1, "<0.1 g", "0 g"},
		{Protein, 0.7, "0.7 g", "less than 1 g"}, {Protein, 10.6, "11 g", "11 g"}, {Sugars, 0.3, "<0.5 g", "0 g"},
		{Sodium, 1000, "2.5 g", "1000 mg"}, {Sodium, 137, "0.34 g", "135 mg"}, {Sodium, 4, "<0.01 g", "0 mg"}, {Sodium, 5, "<0.01 g", "5 mg"}, {Sodium, 6, "0.02 g", "5 mg"},
	} {
		eu, us := text(tt.n, tt.amount)
		assert.Equal(t, tt.eu, eu, "nutrient %d, %v", tt.n, tt.amount)
		assert.Equal(t, tt.us, us, "nutrient %d, %v", tt.n, tt.amount)
	}
	for kcal, want := range map[float64]string{4: "0", 5: "5", 47: "45", 50: "50", 54: "50", 56: "60", 168: "170"} {
		x := Nutrition{}
		x.Has[Carbohydrate] = kcal / 4
		assert.Equal(t, want, x.USDeclaration()[0].Text, "%v kcal", kcal)
	}
}

// A nutrient that is not known for 95 % of the weight has no figure.
func TestNutrientThatIsNotKnownHasNoFigure(t *testing.T) {
	var known, unknown Nutrition
	known = Nutrition{Grams: 100}
	known.Has[Sugars], known.Known[Sugars] = 10, 100
	unknown = Nutrition{Grams: 100}
	sum := Nutrition{}
	sum.Add(96, known)
	sum.Add(4, unknown)
	assert.Equal(t, "9.6 g", sum.EUDeclaration()[4].Text)
	sum.Add(10, unknown)
	assert.Equal(t, "not known", sum.EUDeclaration()[4].Text)
	assert.Zero(t, sum.Per(100, 0).Grams)
}

func TestCompositionSaysItsRow(t *testing.T) {
	table := ReadCompositions("11282;Onions, raw;0.1;0.04;9.34;4.24;1.7;1.1;4;\nbroken;row\n")
	require.Len(t, table, 1)
	c, source, ok := table.Of("red onions, sliced", nil)
	require.True(t, ok)
	assert.Equal(t, "SR28 11282, Onions, raw", source)
	assert.InDelta(t, 9.34-1.7, c.available(), 1e-9)
	_, source, ok = table.Of("finely sliced onions", nil)
	assert.True(t, ok)
	assert.Contains(t, source, "as for onion")
	_, _, ok = table.Of("moonflower", nil)
	assert.False(t, ok)
}
