package quantity

import (
	"errors"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestThreeDigitsBehindAMark reads what kitchens on both sides of the decimal comma
// type. Common practice, no source; that a gap or a mark may part thousands, and a
// comma or a point decimals, is how ISO 80000-1 and its national editions print
// figures (from memory).
func TestThreeDigitsBehindAMark(t *testing.T) {
	for _, tt := range []struct{ in, want string }{
		{"1,500 g", "1500 g or 1.5 g"},
		{"1.500 g", "1500 g or 1.5 g"},
		{"1,620 g", "1620 g or 1.62 g"},
		{"2,500 ml", "2500 ml or 2.5 ml"},
		{"1.125 oz", "1125 oz or 1.1250 oz"},
		{"1,200", "1200 or 1.2"},
		{"12.000 leeks", "12000 or 12"},
		{"about 1,500 g", "1500 g or 1.5 g"},
		{"1,500–2,000 g", "1500–2000 g or 1.5–2 g"},
		{"1,500 ½ g", "1500.5 g or 2 g"},
		{"500–1,500 g", "500–1500 g"}, // as decimals it would not rise
		{"1,200–1.5 g", "1.2–1.5 g"},
		{"900,000 sheets", "900000 sheet or 900 sheet"},
		{"50,000 kg", "50 kg"},
		{"50,000 g", "50000 g or 50 g"},
		{"20.000.000 g", "more than any kitchen holds"},
		{"1.250 kg", "1.25 kg"},
		{"1,250 kg", "1.25 kg"},
		{"1.500 L", "1.5 L"},
		{"2.125 lb", "2.125 lb"},
		{"0,125 L", "0.125 L"},
		{"0.125 g", "0.125 g"},
		{"0,500 g", "0.5 g"},
		{"1,5 g", "1.5 g"},
		{"1,50 g", "1.5 g"},
		{"1,5000 g", "1.5 g"},
		{"1500,250 g", "1500.25 g"},
		{"1.000,5 g", "1000.5 g"},
		{"1,000.5 g", "1000.5 g"},
		{"1.000,500 g", "1000.5 g"},
		{"1,500,000 g", "1500000 g"},
		{"1\u202f500 g", "1500 g"},
		{"1\u00a0500 g", "1500 g"},
		{"1\u2009500 g", "1500 g"},
		{"1'500 g", "1500 g"},
		{"1’500,25 g", "1500.25 g"},
		{"1’500’000 g", "1500000 g"},
		{"1\u202f500.125 g", "1500.125 g"},
		{"1\u00a0½ g", "1.5 g"},
		{"1,500,00 g", `"1,500,00" is not a figure`},
		{"1.5.2 g", `"1.5.2" is not a figure`},
		{"1.500,00,0 g", `"1.500,00,0" is not a figure`},
		{"1500'250 g", `"1500'250" is not a figure`},
		{"11/2 cups", `"11/2" may be two figures run together`},
		{"21⁄4 cups", `"21⁄4" may be two figures run together`},
		{"1.1/2 cups", `"1.1/2" may be two figures run together`},
		{"2–1.5.2 g", `"1.5.2" is not a figure`},
	} {
		a, _, err := ParseAmount(tt.in)
		var e *AmountError
		switch {
		case err == nil:
			assert.Equal(t, tt.want, Written(a), tt.in)
		case errors.As(err, &e) && e.Doubtful:
			require.Len(t, e.Readings, 2, tt.in)
			assert.Equal(t, tt.want, Written(e.Readings[0])+" or "+Written(e.Readings[1]), tt.in)
			assert.Equal(t, "can be read as "+Written(e.Readings[0])+" or as "+Written(e.Readings[1])+"; type the one that is meant", err.Error())
		default:
			assert.Contains(t, err.Error(), tt.want, tt.in)
		}
	}
}

func TestPlaceOfADoubtfulFigure(t *testing.T) {
	_, rest, err := ParseAmount("  about 1,500 g flour")
	var e *AmountError
	require.ErrorAs(t, err, &e)
	assert.Equal(t, 8, e.Offset)
	assert.Equal(t, "  about 1,500 g flour", rest)
}

// TestReadingsAreReadInOneWay types each reading of a doubtful amount in its place.
func TestReadingsAreReadInOneWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head := strconv.Itoa(rapid.IntRange(1, 99).Draw(t, "before"))
		tail := strconv.Itoa(1000 + rapid.IntRange(0, 999).Draw(t, "behind"))[1:]
		mark := rapid.SampledFrom([]string{",", "."}).Draw(t, "mark")
		unit := rapid.SampledFrom([]string{" g", " ml", "", " oz", " cloves"}).Draw(t, "unit")
		_, _, err := ParseAmount(head + mark + tail + unit)
		var e *AmountError
		require.ErrorAs(t, err, &e)
		require.Len(t, e.Readings, 2)
		require.Equal(t, head+tail, e.Readings[0].Qty.String())
		for _, want := range e.Readings {
			got, rest, err := ParseAmount(Written(want))
			require.NoError(t, err, Written(want))
			require.Empty(t, rest)
			require.Zero(t, want.Qty.Cmp(got.Qty), Written(want))
			require.True(t, want.Unit == got.Unit)
		}
	})
}

func TestParseCount(t *testing.T) {
	for in, want := range map[string]string{
		"18": "18", " 1 ": "1", "1'200": "1200", "1\u202f200": "1200", "5000": "5000",
		"1,200": "can be read as 1200 or as 1.2", "12.000": "can be read as 12000 or as 12", "5001": "more than 5000", "1.5": "not a whole number",
		"18 covers": "not a whole number", "2–3": "not a whole number", "about 5": "not a whole number", "": "no amount here", "-2": "negative", "18 g": "not a whole number", "to taste": "not a whole number",
	} {
		n, err := ParseCount(in, 5000)
		if err != nil {
			assert.Contains(t, err.Error(), want, in)
			continue
		}
		assert.Equal(t, want, strconv.Itoa(n), in)
	}
	_, err := ParseCount("1,200", 5000)
	var e *AmountError
	require.ErrorAs(t, err, &e)
	require.Len(t, e.Readings, 1, "nobody serves 1.2 covers")
	assert.Equal(t, "1200", Written(e.Readings[0]))
}

func TestParseNumberTakesThreeDigitsForDecimals(t *testing.T) {
	for in, want := range map[string]string{"1.034": "517/500", "1,034": "517/500", "68": "68", "½": "1/2", "0": "0"} {
		n, ok := ParseNumber(in)
		require.True(t, ok, in)
		assert.Equal(t, want, n.String(), in)
	}
	for _, in := range []string{"", "x", "1 g", "-1", "1.2.3", "2–3"} {
		_, ok := ParseNumber(in)
		assert.False(t, ok, in)
	}
}
