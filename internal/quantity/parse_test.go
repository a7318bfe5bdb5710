package quantity

import (
	"encoding/json"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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

func TestParseAmountWithoutFigure(t *testing.T) {
	a, rest, err := ParseAmount("to taste")
	require.NoError(t, err)
	assert.True(t, a.ToTaste)
	assert.Empty(t, rest)
	a, _, err = ParseAmount("about 1.6 kg")
	require.NoError(t, err)
	assert.True(t, a.About)
	assert.Equal(t, "8/5", a.Qty.String())
}

func TestParseAmountRefuses(t *testing.T) {
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

func TestAmountSurvivesJSON(t *testing.T) {
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

func FuzzParseAmount(f *testing.F) {
	for _, s := range []string{"1 ½ lb", "2-3", "1,5 kg", "0", "-3 g", "1e9 kg", "to taste", "about 1⁄3 cup", "1/0", "½½", "\x00", "1 \u202fg"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, rest, err := ParseAmount(s)
		if err != nil {
			ae, ok := err.(*AmountError)
			if !ok || ae.Offset < 0 || ae.Offset > utf8.RuneCountInString(s) {
				t.Fatalf("%q: error points outside the text: %v", s, err)
			}
			return
		}
		if len(rest) > len(s) {
			t.Fatalf("%q: more left over than there was: %q", s, rest)
		}
		if a.ToTaste {
			return
		}
		back := a.Scale(Frac(7, 3)).Scale(Frac(3, 7)) // exact: no rounding in between
		if back.Qty.Cmp(a.Qty) != 0 || back.To.Cmp(a.To) != 0 {
			t.Fatalf("%q: scaled there and back, %v became %v", s, a, back)
		}
		if shown := Show(a, Prefs{}); shown == "" {
			t.Fatalf("%q shows as nothing", s)
		}
	})
}
