package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"hobside/internal/quantity"
)

// TestSizesMatchSR28 compares every weight of the table of sizes with USDA SR28's household
// weights (WEIGHT.txt, read): ../../testdata/reference/sizes.csv. Both have the same rows.
func TestSizesMatchSR28(t *testing.T) {
	want := map[string]string{}
	for _, r := range rows(t, "sizes.csv") {
		want[r[0]+" "+r[1]+" "+r[2]] = r[3]
	}
	checked := 0
	for name, row := range sizes {
		food, ok := Find(name)
		require.True(t, ok, name)
		assert.Equal(t, name, food.Name)
		assert.Equal(t, food.row, row.row, name)
		require.Len(t, row.grams, len(sizeNames), name)
		for i, grams := range row.grams {
			if grams != "" {
				assert.Equal(t, want[row.row+" "+name+" "+sizeNames[i]], grams, "%s, %s", name, sizeNames[i])
				checked++
			}
		}
		for _, unit := range row.units {
			_, known := quantity.LookupUnit(unit)
			assert.True(t, known || unit == quantity.Each.Name, unit)
		}
	}
	assert.Len(t, want, checked)
}

func TestSizeOf(t *testing.T) {
	for item, want := range map[string]string{
		"small onions": "small", "Large Carrots": "large", "extra-large eggs": "extra large", "very large eggs": "extra large", "big potatoes": "large", "medium-sized leeks": "medium",
		"red onions": "", "onions in large chunks": "", "onions, large": "", "ham cut small": "", "": "", "free-range large eggs": "large",
	} {
		assert.Equal(t, want, SizeOf(item), item)
	}
}

// TestSizeDecidesWhatOneWeighs weighs one by USDA SR28 (see sizes.csv), with the source that
// the screen shows.
func TestSizeDecidesWhatOneWeighs(t *testing.T) {
	kitchen := NewFoods([]OwnFood{{Name: "onion", Weights: map[string]quantity.Number{"each": quantity.Int(180)}}})
	for _, tt := range []struct {
		item, unit string
		own        Own
		grams      string
		basis      string
	}{
		{"small onion", "", Own{}, "70", "SR28 11282, small, as for onion"},
		{"medium onions", "", Own{}, "110", "medium, as for onion"},
		{"onion", "", Own{}, "110", "SR28 11282)"},
		{"large onions", "", Own{}, "150", "large, as for onion"},
		{"large red onions", "", Own{}, "150", "large, as for onion"},
		{"onions", "", Own{Size: "large"}, "150", "SR28 11282, large)"},
		{"small potatoes", "", Own{}, "170", "small"},
		{"large potatoes", "", Own{}, "369", "large"},
		{"small stalks celery", "stalk", Own{}, "17", "small"},
		{"celery", "stick", Own{Size: "large"}, "64", "SR28 11143, large)"},
		{"large head cauliflower", "head", Own{}, "840", "large"},
		{"small eggs", "", Own{}, "38", "SR28 01123, small, as for egg"},
		{"medium eggs", "", Own{}, "44", "SR28 01123, medium, as for egg"},
		{"large eggs", "", Own{}, "50", "SR28 01123, large, as for egg"},
		{"medium eggs", "", Own{UK: true}, "50", "no figure for a medium one"},
		{"large shallots", "", Own{}, "", "no figure for a large one"},
		{"large onions", "", Own{Foods: kitchen}, "180", "the kitchen's foods, as for onion; no figure for a large one"},
		{"small new potatoes", "", Own{}, "60", "no figure for a small one"},
	} {
		u := quantity.Each
		if tt.unit != "" {
			u = mustUnit(t, tt.unit)
		}
		grams, basis, err := gramsOfOne(tt.item, u, tt.own)
		require.NoError(t, err, tt.item)
		if tt.grams != "" {
			assert.Equal(t, tt.grams, quantity.ShowNumber(grams), tt.item)
		}
		assert.Contains(t, basis, tt.basis, tt.item)
		assert.False(t, strings.HasPrefix(basis, ","), basis)
	}
}

// TestFreshBreadcrumbsAreLighterThanDried: a cup of crumbs of fresh bread weighs 45 g (USDA
// SR28 18416), of dried ones 108 g (SR28 18079). Of crumbs that may be either, no volume has a
// weight.
func TestFreshBreadcrumbsAreLighterThanDried(t *testing.T) {
	cup := mustUnit(t, "cup")
	for item, want := range map[string]float64{"fresh breadcrumbs": 45, "fresh white breadcrumbs": 45, "soft breadcrumbs": 45, "soft bread crumbs": 45, "dried breadcrumbs": 108, "breadcrumbs": 108, "dry bread crumbs": 108} {
		grams, basis, err := gramsOfOne(item, cup, Own{})
		require.NoError(t, err, item)
		assert.InDelta(t, want, grams.Float64(), 0.05, item)
		assert.Contains(t, basis, "breadcrumbs 0.", item)
	}
	_, _, err := gramsOfOne("white breadcrumbs", cup, Own{})
	assert.Error(t, err)
}

// TestJuiceOfAFruitWeighsWhatItYields: the juice of one is what USDA SR28 says that it yields
// (WEIGHT.txt, read: yields.csv), and of the zest nothing is known.
func TestJuiceOfAFruitWeighsWhatItYields(t *testing.T) {
	read := map[string]string{}
	for _, r := range rows(t, "yields.csv") {
		if fruit, ok := strings.CutPrefix(r[4], "g juice from one "); ok && r[2] == "juice" {
			read[fruit+" "+r[0]] = r[3]
		}
	}
	for fruit, j := range juices {
		assert.Equal(t, read[fruit+" "+j.row], j.grams, fruit)
	}
	assert.Len(t, juices, len(read))
	each, gram := quantity.Each, gram
	for _, tt := range []struct{ item, taken, grams, basis string }{
		{"lemons", Juice, "96", "one lemon 48 g (SR28 09152, what one yields)"},
		{"unwaxed lemon", Juice, "96", "one unwaxed lemon 48 g (SR28 09152, what one yields)"},
		{"lime", Juice, "88", "one lime 44 g (SR28 09160, what one yields)"},
		{"orange", Juice, "172", "one orange 86 g (SR28 09206, what one yields)"},
		{"lime", Zest, "", ""},
		{"grapefruit", Juice, "392", "one grapefruit 196 g (SR28 09404, what one yields)"},
		{"pomelo", Juice, "", ""},
		{"zzyzx", Juice, "", ""},
	} {
		n, basis, err := Convert(tt.item, quantity.Int(2), each, gram, Own{Size: tt.taken})
		if tt.grams == "" {
			assert.ErrorContains(t, err, "is not known: give it by weight", tt.item)
			continue
		}
		require.NoError(t, err, tt.item)
		assert.Equal(t, tt.grams, quantity.ShowNumber(n), tt.item)
		assert.Equal(t, tt.basis, basis, tt.item)
	}
}
