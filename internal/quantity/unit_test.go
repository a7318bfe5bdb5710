package quantity

import (
	"encoding/csv"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// published reads testdata/reference/units.csv. Each row names its publication and
// whether it was read there.
func published(t *testing.T) map[string][]string {
	t.Helper()
	f, err := os.Open("../../testdata/reference/units.csv")
	require.NoError(t, err)
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	byID := map[string][]string{}
	for _, r := range rows[1:] {
		byID[r[0]] = r
	}
	return byID
}

// Units are exact by definition, so the test asks for exact values.
func TestUnitFactorsMatchTheLaw(t *testing.T) {
	rows := published(t)
	for id, word := range map[string]string{
		"lb_avdp": "lb", "oz_avdp": "oz", "us_gal": "gallon", "us_qt": "quart", "us_pt": "pint", "us_cup": "cup",
		"us_floz": "fl oz", "us_tbsp": "tbsp", "us_tsp": "tsp", "uk_gal": "imperial gallon", "uk_qt": "imperial quart",
		"uk_pt": "imperial pint", "uk_gill": "imperial gill", "uk_floz": "imperial fluid ounce", "inch": "inch",
		"metric_cup": "metric cup", "metric_tbsp": "metric tbsp", "metric_tsp": "metric tsp", "au_tbsp": "australian tablespoon",
	} {
		row := rows[id]
		require.NotNil(t, row, id)
		want, ok := new(big.Rat).SetString(row[2])
		require.True(t, ok, row[2])
		u, ok := LookupUnit(word)
		require.True(t, ok, word)
		assert.Zero(t, want.Cmp(u.Factor.Rat()), "%s = %s, want %s %s; source: %s (%s)", word, u.Factor, row[2], row[3], row[6], row[7])
	}
}

// NIST SP 811 gives seven figures; the exact factor rounded to seven is the same.
// Its rows are from memory (their status says so), so this is a second check.
func TestUnitFactorsMatchNISTTables(t *testing.T) {
	rows := published(t)
	for id, word := range map[string]string{
		"sp811_cup": "cup", "sp811_floz": "fl oz", "sp811_tbsp": "tbsp", "sp811_tsp": "tsp", "sp811_gal": "gal",
		"sp811_pt": "pint", "sp811_qt": "quart", "sp811_oz": "oz", "sp811_lb": "lb", "sp811_ukfloz": "imperial fluid ounce",
	} {
		row := rows[id]
		require.NotNil(t, row, id)
		u, ok := LookupUnit(word)
		require.True(t, ok, word)
		base := u.Factor.Quo(Int(1000)) // g -> kg
		if u.Dim == Volume {
			base = base.Quo(Int(1000)) // mL -> m³
		}
		f, _ := base.Rat().Float64()
		assert.Equal(t, row[2], formatSeven(f), "%s; source: %s (%s)", word, row[6], row[7])
	}
}

func formatSeven(f float64) string { return new(big.Float).SetFloat64(f).Text('E', 6) }

// Every temperature row of the table, to the decimals it has. The rule (F − 32) × 5/9
// was read in the Standards of Weights and Measures Act 1976 (India); the rows are
// computed from it.
func TestTemperatures(t *testing.T) {
	n := 0
	for id, row := range published(t) {
		word, ok := strings.CutPrefix(id, "t_")
		if !ok {
			continue
		}
		n++
		given, err := strconv.ParseFloat(word[:len(word)-1], 64)
		require.NoError(t, err, id)
		got, decimals := Celsius(given), 4
		if strings.HasSuffix(word, "C") {
			got, decimals = Fahrenheit(given), 2
		}
		assert.Equal(t, row[2], strings.Replace(strconv.FormatFloat(got, 'f', decimals, 64), "-0.0000", "0.0000", 1), "%s; source: %s (%s)", row[1], row[6], row[7])
	}
	assert.Equal(t, 33, n, "all rows were tested")
}

// TestDistanceMatchesItsDefinition compares Distance with the recursive definition of
// the optimal string alignment distance, written down without a table or a bound.
func TestDistanceMatchesItsDefinition(t *testing.T) {
	var plain func(a, b string) int
	plain = func(a, b string) int {
		n, m := len(a), len(b)
		if n == 0 || m == 0 {
			return n + m
		}
		change := 1
		if a[n-1] == b[m-1] {
			change = 0
		}
		best := min(plain(a[:n-1], b)+1, plain(a, b[:m-1])+1, plain(a[:n-1], b[:m-1])+change)
		if n > 1 && m > 1 && a[n-1] == b[m-2] && a[n-2] == b[m-1] {
			best = min(best, plain(a[:n-2], b[:m-2])+1)
		}
		return best
	}
	word := rapid.StringMatching(`[abc]{0,6}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b, limit := word.Draw(t, "a"), word.Draw(t, "b"), rapid.IntRange(0, 3).Draw(t, "limit")
		assert.Equal(t, min(plain(a, b), limit+1), Distance(a, b, limit), "%s, %s, limit %d", a, b, limit)
	})
}

func TestDistance(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want int
	}{{"hand", "hands", 1}, {"buttr", "butter", 1}, {"hnads", "hands", 1}, {"", "ab", 2}, {"salt", "salt", 0}, {"onion", "garlic", 3}, {"a", "abcdef", 3}} {
		assert.Equal(t, tt.want, min(Distance(tt.a, tt.b, 2), 3), "%s, %s", tt.a, tt.b)
		assert.Equal(t, tt.want, min(Distance(tt.b, tt.a, 2), 3), "%s, %s", tt.b, tt.a)
	}
	assert.Equal(t, 3, Distance(strings.Repeat("a", 70), strings.Repeat("a", 71), 2), "words above 60 bytes are not compared")
}

// Other spellings of units: common usage, no source.
func TestSpellingsMeanTheirUnit(t *testing.T) {
	meant := map[string]string{
		"gram": "gr, grs, gramme, grammes", "kilogram": "kilo, kilos, kgs", "millilitre": "milliliter, milliliters, cc", "litre": "liter, liters, l, lt", "cup": "c, C, cupful, cupfuls",
		"centilitre": "centiliter", "decilitre": "deciliter", "pound": "lbs", "ounce": "ozs", "teaspoon": "t, tsps, teaspoonful, teaspoonfuls",
		"tablespoon": "T, tb, tbs, tbl, tbls, tblsp, tbsps, tablespoonful, tablespoonfuls", "metric tablespoon": "c à soupe, c. à soupe", "metric teaspoon": "c à café",
		"fluid ounce": "floz, fl ozs, fluid oz, us fl oz, U.S. fl. oz., American fluid ounce", "gallon": "gals", "quart": "qts", "pint": "pts", "millimetre": "millimeter, millimeters", "centimetre": "centimeter, centimeters",
		"piece": "pc, pcs", "portion": "serving, servings", "mould": "mold, molds", "packet": "pkt, pack, packs, pkg, pkgs, package, packages", "sachet": "envelope, envelopes", "leaf": "leafs",
		"imperial fluid ounce": "imperial fl oz, imperial fl. oz, imp floz", "imperial pint": "imp pint, imp pints, imp. pint, imp. pints, UK pint, british pints",
	}
	seen := map[string]bool{}
	for name, words := range meant {
		for word := range strings.SplitSeq(words, ", ") {
			seen[word] = true
			u, ok := LookupUnit(word)
			if assert.True(t, ok, word) {
				assert.Equal(t, name, u.Name, word)
			}
		}
	}
	for word := range spellings {
		assert.True(t, seen[word], "%q is a spelling that no row tests", word)
	}
	for word, u := range byWord {
		assert.NotNil(t, u, "%q names no unit", word)
	}
}

func TestLookupUnitReadsCommonSpellings(t *testing.T) {
	for word, want := range map[string]string{
		"g": "gram", "Grams": "gram", "KG": "kilogram", "kilos": "kilogram", "l": "litre", "Liter": "litre", "tbsp.": "tablespoon",
		"lbs": "pound", "fl oz": "fluid ounce", "fl  oz": "fluid ounce", "cloves": "clove", "leaves": "leaf", "pcs": "piece",
	} {
		u, ok := LookupUnit(word)
		if assert.True(t, ok, word) {
			assert.Equal(t, want, u.Name, word)
		}
	}
	_, ok := LookupUnit("onions")
	assert.False(t, ok)
	_, ok = LookupUnit("")
	assert.False(t, ok, "Each has no word of its own")
}

func TestSuggestUnit(t *testing.T) {
	assert.Equal(t, "gram", SuggestUnit("gramm"))
	assert.Equal(t, "tablespoon", SuggestUnit("tablspoon"))
	assert.Equal(t, "tablespoon", SuggestUnit("tablspon"), "two letters left out")
	assert.Empty(t, SuggestUnit("tablspn"), "three letters left out")
	assert.Empty(t, SuggestUnit("onion"))
}

func TestDifferentDimensionsDoNotConvert(t *testing.T) {
	kg, _ := LookupUnit("kg")
	lb, _ := LookupUnit("lb")
	ml, _ := LookupUnit("ml")
	clove, _ := LookupUnit("clove")
	leaf, _ := LookupUnit("leaf")
	n, ok := Convert(Int(1), lb, kg)
	require.True(t, ok)
	assert.Zero(t, n.Cmp(Frac(45359237, 100000000)), "UK Weights and Measures Act 1985, Sch. 1 Part V")
	for _, pair := range [][2]*Unit{{kg, ml}, {clove, leaf}, {kg, Each}, {nil, kg}} {
		_, ok := Convert(Int(1), pair[0], pair[1])
		assert.False(t, ok)
	}
}
