package larder

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Each row of the table is compared with the row it came from. SR28 rows were read,
// two are computed from two such rows, and the ranges are our own and say so.
func TestCookedYieldsMatchTheirSources(t *testing.T) {
	from := map[string]string{
		"chicken meat/roast": "ck1", "chicken meat/stew": "ck2", "frozen broccoli/boil": "11095", "frozen asparagus/boil": "11019", "frozen pea/boil": "11313",
		"frozen spinach/boil": "11464", "frozen sweetcorn/boil": "11179", "beef rib/roast": "own_Roasting_joint_70", "lamb shoulder/brais": "own_Braised_meat:_raw_to_cooked_60",
		"long-grain rice/boil": "own_Rice_270", "pasta/boil": "own_Pasta_200",
	}
	published := map[string][]string{}
	for _, r := range rows(t, "yields.csv") {
		if r[2] == "cooking" || r[2] == "working range" {
			published[r[0]] = r
		}
	}
	n := 0
	for line := range strings.Lines(cookedText) {
		if line[0] == '#' {
			continue
		}
		n++
		c := strings.Split(strings.TrimSpace(line), ";")
		name, _, _ := strings.Cut(c[0], ",")
		method, _, _ := strings.Cut(c[1], ",")
		row, ok := published[from[name+"/"+method]]
		require.True(t, ok, "%s/%s names no row", name, method)
		low, high, ranged := strings.Cut(row[5], "-")
		if !ranged {
			high = low
		}
		assert.Equal(t, []string{low, high}, c[2:4], "%s; %s", row[8], row[9])
		assert.Equal(t, row[9] == "OWN", strings.Contains(c[4], "own working range"), "%s says whose figure it is", name)
		assert.Equal(t, row[9] == "COMPUTED", strings.Contains(c[4], "computed"), "%s says that it was computed", name)
	}
	assert.Equal(t, len(from), n)
}

func TestCookedYieldDoesNotGuess(t *testing.T) {
	for _, tt := range []struct{ item, method, want string }{
		{"shoulder of lamb, boned", "Braise, covered, until it yields", "60–70 % of its raw weight (own working range)"},
		{"Chicken meat", "Roast until 74 °C at the core", "74.1 % of its raw weight (USDA SR28, rows 05013 over 05011, computed)"},
		{"frozen peas", "Boil for two minutes", "89.2 % of its raw weight (USDA SR28, row 11313)"},
		{"basmati rice", "simmer, covered", "270–320 % of its raw weight (own working range)"},
		{"shoulder of lamb", "Roast it", ""}, // the range is of braised meat
		{"coconut milk", "boil", ""},
		{"peas", "boil", ""}, // only frozen ones were weighed
		{"", "boil", ""},
	} {
		c, ok := CookedYield(tt.item, tt.method)
		assert.Equal(t, tt.want != "", ok, tt.item)
		if ok {
			assert.Equal(t, tt.want, c.String(), tt.item)
		}
	}
}
