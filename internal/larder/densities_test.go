package larder

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// forms are words by which SR28 says that a household measure is of another form of the
// food than the one that a card measures.
var forms = words("whipped packed sifted grated chopped sliced slivered ground mashed melted popped puffed crumbled diced shredded crushed cooked drained leaves halves")

// measuredSo are the foods whose spoon or cup is meant in such a form without its name
// saying so: common practice, no source.
var measuredSo = map[string]string{
	"brown sugar": "packed", "light brown sugar": "packed", "dark brown sugar": "packed", "black pepper": "ground", "cardamom": "ground", "caper": "drained",
	"dried basil": "leaves", "dried oregano": "leaves", "dried thyme": "leaves", "dried tarragon": "leaves",
}

// TestDensityIsOfTheFormThatIsMeasured: no density comes from a measure of SR28 that is of
// another form: a cup of whipping cream weighs 238 g, fluid, and not 120 g, "whipped".
func TestDensityIsOfTheFormThatIsMeasured(t *testing.T) {
	rows := sr28(t)
	checked := 0
	for _, d := range densities(t) {
		if d.row == "" {
			continue
		}
		var found [][]string // the form words of each measure that has the figure
		for _, m := range rows[d.row].volumes {
			if math.Abs(m.perML-d.value) <= 0.0006*d.value {
				found = append(found, m.forms())
			}
		}
		require.NotEmpty(t, found, d.food.Name)
		checked++
		meant := words(strings.ToLower(d.food.Name + " " + strings.ReplaceAll(rows[d.row].name, ",", " ") + " " + measuredSo[d.food.Name]))
		assert.True(t, slices.ContainsFunc(found, func(said []string) bool {
			return !slices.ContainsFunc(said, func(form string) bool { return !meant[form] })
		}), "%s: %v g/ml is of a measure that is %v; SR28 %s", d.food.Name, d.value, found, d.row)
	}
	assert.Greater(t, checked, 200)
}

// In g/ml at 20 °C: Choi and Okos 1986, as in ASHRAE Refrigeration 2006, chapter 9, read;
// that of ethanol is from memory.
const water20, protein20, fat20, carbohydrate20, fibre20, ash20, ethanol20 = 0.99574, 1.31953, 0.91724, 1.59289, 1.30418, 2.41819, 0.789

// TestPouredFoodsWeighWhatTheyAreMadeOf compares the density of every food that is poured
// or spread with that of its composition by SR28: a figure that is far off is of air, of
// another form, or a wrong line of the table.
func TestPouredFoodsWeighWhatTheyAreMadeOf(t *testing.T) {
	rows := sr28(t)
	checked := 0
	for _, d := range densities(t) {
		p := rows[d.food.row]
		if !poured(d.food) || p == nil {
			continue
		}
		rest := ash20 // what the table does not list
		if d.food.Section == "drinks" || strings.Contains(d.food.Name, "extract") {
			rest = ethanol20
		}
		water, protein, fat, carbohydrate, fibre := p.made[0], p.made[1], p.made[2], p.made[3], p.made[4]
		ml := water/water20 + protein/protein20 + fat/fat20 + (carbohydrate-fibre)/carbohydrate20 + fibre/fibre20 +
			math.Max(0, 100-water-protein-fat-carbohydrate)/rest
		assert.InDelta(t, 1, d.value*ml/100, 0.13, "%s: %v g/ml; by its composition %.4g; SR28 %s", d.food.Name, d.value, 100/ml, d.food.row)
		checked++
	}
	assert.Greater(t, checked, 120)
	for name, want := range map[string]float64{"heavy cream": 1.006, "double cream": 1.006, "whipping cream": 1.006, "cream": 1.006} { // SR28 01053, 1 cup, fluid: 238 g
		f := Nearest(name).Density()
		assert.InDelta(t, want, f.Value.Float64(), 1e-9, name)
	}
}

// poured reports whether a food is a liquid, a fat or a paste, without air between its
// pieces when it is measured.
func poured(f *Food) bool {
	if slices.Contains([]string{"caper", "black olive", "pickled vegetable", "cream of tartar", "butter bean", "gravy granule"}, f.Name) ||
		strings.Contains(f.Name, "powder") {
		return false
	}
	liquid := words(`milk cream juice syrup honey treacle molasses extract oil vinegar sauce egg puree paste yoghurt buttermilk dripping lard fat butter ghee
		margarine passata tahini miso jam marmalade mustard mayonnaise yolk white ricotta half fraiche gravy bechamel salsa caviar`)
	return f.Section == "oils and vinegars" || f.Section == "drinks" || slices.ContainsFunc(strings.Fields(f.Name), func(w string) bool { return liquid[w] })
}

// A density is one figure of the table: its food, its value in g/ml, and the row of SR28
// that it is from, "" for our own.
type density struct {
	food  *Food
	value float64
	row   string
}

// densities returns the densities of the table.
func densities(t *testing.T) []density {
	t.Helper()
	var out []density
	for i := range foods {
		f := &foods[i]
		value, row, other := strings.Cut(f.value("d"), "@")
		if f.variant || value == "" {
			continue
		}
		if !other {
			row = f.row
		}
		value, own := strings.CutSuffix(value, "*")
		if own {
			row = ""
		}
		out = append(out, density{f, number(value).Float64(), row})
	}
	require.Greater(t, len(out), 250)
	return out
}
