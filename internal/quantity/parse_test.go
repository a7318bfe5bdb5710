package quantity

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/unicode/norm"
)

func TestParseAmount(t *testing.T) {
	for _, tt := range []struct{ in, qty, to, unit, rest string }{
		{"500 g", "500", "", "gram", ""},
		{"500g flour", "500", "", "gram", "flour"},
		{"1 ½ lb chicken", "3/2", "", "pound", "chicken"},
		{"1½ lb", "3/2", "", "pound", ""},
		{"1 1/2 cups milk", "3/2", "", "cup", "milk"},
		{"1/2 tsp salt", "1/2", "", "teaspoon", "salt"},
		{"½ tsp", "1/2", "", "teaspoon", ""},
		{"2–3 cloves garlic", "2", "3", "clove", "garlic"},
		{"2-3", "2", "3", "each", ""},
		{"2 to 3 leaves", "2", "3", "leaf", ""},
		{"1,5 kg flour", "3/2", "", "kilogram", "flour"},
		{"1.25 L water", "5/4", "", "litre", "water"},
		{"3 eggs", "3", "", "each", "eggs"},
		{"4 fl oz cream", "4", "", "fluid ounce", "cream"},
		{"18 plates", "18", "", "plate", ""},
		{"1 bunch parsley", "1", "", "bunch", "parsley"},
		{"1 bunched carrot", "1", "", "each", "bunched carrot"},
	} {
		a, rest, err := ParseAmount(tt.in)
		if !assert.NoError(t, err, tt.in) {
			continue
		}
		assert.Equal(t, tt.qty, a.Qty.String(), tt.in)
		if tt.to != "" {
			assert.Equal(t, tt.to, a.To.String(), tt.in)
		} else {
			assert.True(t, a.To.IsZero(), tt.in)
		}
		assert.Equal(t, tt.unit, a.Unit.Name, tt.in)
		assert.Equal(t, tt.rest, rest, tt.in)
	}
}

func TestAmountsWithoutAFigure(t *testing.T) {
	a, rest, err := ParseAmount("to taste")
	require.NoError(t, err)
	assert.True(t, a.ToTaste)
	assert.Empty(t, rest)
	for in, want := range map[string]string{"a little oil": "oil", "Some salt": "salt", "AS NEEDED": "", "To taste, if at all": ", if at all"} {
		a, rest, err = ParseAmount(in)
		require.NoError(t, err, in)
		assert.True(t, a.ToTaste, in)
		assert.Equal(t, want, rest, in)
	}
	_, _, err = ParseAmount("something")
	assert.Error(t, err, "a word that goes on")
	_, rest, err = ParseAmount("a lİttle oil") // whose lower case is a byte shorter
	assert.Error(t, err)
	assert.Equal(t, "a lİttle oil", rest)
	a, _, err = ParseAmount("about 1.6 kg")
	require.NoError(t, err)
	assert.True(t, a.About)
	assert.Equal(t, "8/5", a.Qty.String())
}

func TestAmountsThatAreRefused(t *testing.T) {
	for in, want := range map[string]string{
		"0":           "an amount of 0",
		"0 g":         "an amount of 0",
		"-3 g":        "can't be negative",
		"1e9 kg":      "powers of ten",
		"999999 kg":   "more than any kitchen holds",
		"50000 L":     "more than any kitchen holds",
		"salt":        "no amount here",
		"":            "no amount here",
		"3–2 cloves":  "upper end is not above",
		"2–":          "without an upper end",
		"99999999999": "more than any kitchen holds",
	} {
		_, rest, err := ParseAmount(in)
		if assert.Error(t, err, in) {
			assert.Contains(t, err.Error(), want, in)
			assert.Equal(t, in, rest, "nothing is lost")
		}
	}
}

func TestAmountJSONRoundTrip(t *testing.T) {
	for _, in := range []string{"500 g", "2–3 cloves", "about 1 1/3 cups", "to taste", "3"} {
		a, _, err := ParseAmount(in)
		require.NoError(t, err)
		b, err := json.Marshal(a)
		require.NoError(t, err)
		var back Amount
		require.NoError(t, json.Unmarshal(b, &back), string(b))
		assert.Equal(t, Show(a, Prefs{}), Show(back, Prefs{}))
		assert.Zero(t, a.Qty.Cmp(back.Qty))
		assert.True(t, a.Unit == back.Unit)
	}
	var a Amount
	assert.ErrorContains(t, json.Unmarshal([]byte(`{"qty":"1","unit":"furlong"}`), &a), `unknown unit "furlong"`)
}

// The decomposition of each sign is that of the Unicode standard (NFKC), as the
// library golang.org/x/text knows it: ⅝ is 5, a fraction slash and 8.
func TestFractionSignsAreThoseOfUnicode(t *testing.T) {
	for sign, got := range vulgar {
		over, under, ok := strings.Cut(norm.NFKC.String(string(sign)), "⁄")
		require.True(t, ok, string(sign))
		var want Number
		require.NoError(t, want.UnmarshalText([]byte(over+"/"+under)))
		assert.Zero(t, want.Cmp(got), "%c is %s", sign, got)
	}
	assert.Len(t, vulgar, 15)
}

// Above these an amount is taken for a slip: 10 t, 10,000 litres, a million
// pieces. Common practice, no source.
func TestLargestAmounts(t *testing.T) {
	for in, ok := range map[string]bool{
		"10000 kg": true, "10000.001 kg": false, "10000 L": true, "10000.001 L": false, "1000000 eggs": true, "1000001 eggs": false, "2–1000001 eggs": false,
		"100000 cm": true, "100001 cm": false, "1" + strings.Repeat("0", 30) + " g": false, "0." + strings.Repeat("0", 27) + "1 g": true, "0." + strings.Repeat("0", 29) + "1 g": false,
	} {
		_, _, err := ParseAmount(in)
		assert.Equal(t, ok, err == nil, "%s: %v", in, err)
	}
}

func TestNeedIsTheUpperEndOfARange(t *testing.T) {
	a, _, err := ParseAmount("2–3 cloves")
	require.NoError(t, err)
	assert.Equal(t, "3", a.Need().String())
	a, _, err = ParseAmount("2 cloves")
	require.NoError(t, err)
	assert.Equal(t, "2", a.Need().String())
}
