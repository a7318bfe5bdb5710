package quantity

import (
	"encoding/json"
	"math/big"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// exactNumber is what [Number.UnmarshalText] reads, written as a pattern:
// whole over whole, or digits with at most one point among them.
var exactNumber = regexp.MustCompile(`^-?([0-9]+/[0-9]+|[0-9]+(\.[0-9]*)?|\.[0-9]+)$`)

// ratOf reads a number with math/big; ok is false where it divides by 0. Both
// sides of a fraction are read by themselves: big.Rat takes "010/1" for octal.
func ratOf(text string) (n *big.Rat, ok bool) {
	over, under, isFraction := strings.Cut(text, "/")
	if !isFraction {
		return new(big.Rat).SetString(text)
	}
	num, ok1 := new(big.Int).SetString(over, 10)
	den, ok2 := new(big.Int).SetString(under, 10)
	if !ok1 || !ok2 || den.Sign() == 0 {
		return nil, false
	}
	return new(big.Rat).SetFrac(num, den), true
}

// FuzzNumberUnmarshalText reads any bytes as a number. The oracles are the pattern
// above for what is a number at all, and math/big for its value.
func FuzzNumberUnmarshalText(f *testing.F) {
	for _, s := range []string{"0", "-0", "008/1", "7/3", "-7/3", "1.25", ".5", "5.", ".", "-", "/", "1/0", "0/0", "00/1", "1e9", "+1", "1_0", " 1", "١",
		"9223372036854775807", "9223372036854775808/3", "-9223372036854775808", strings.Repeat("9", 200), "0." + strings.Repeat("0", 150) + "1", strings.Repeat("1", 201)} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var n Number
		err := n.UnmarshalText(text)
		want, ok := new(big.Rat), false
		if len(text) <= 200 && exactNumber.Match(text) {
			want, ok = ratOf(string(text))
		}
		require.Equal(t, ok, err == nil, "%q: %v", text, err)
		if err != nil {
			require.True(t, n.IsZero(), "a refused text leaves the number alone")
			return
		}
		require.Zero(t, want.Cmp(n.Rat()), "%q was read as %s", text, n)
		written, err := n.MarshalText()
		require.NoError(t, err)
		require.Equal(t, want.RatString(), string(written))
		if len(written) <= 200 { // a decimal of 200 digits is longer as a fraction
			var back Number
			require.NoError(t, back.UnmarshalText(written))
			require.Zero(t, back.Cmp(n))
		}
	})
}

// FuzzAmountJSON reads any bytes as an amount in JSON. What is read is written and
// read again as the same amount; an unknown unit is an error.
func FuzzAmountJSON(f *testing.F) {
	for _, s := range []string{`{"qty":"7/3","unit":"kilogram"}`, `{"qty":"2","to":"3","unit":"clove"}`, `{"qty":"0","toTaste":true}`, `{"qty":"1","unit":"furlong"}`,
		`{"qty":"1","unit":"TSP.","about":true}`, `{"qty":"1","unit":"each"}`, `{"to":null}`, `null`, `{"qty":1}`, `[]`, `{"qty":"-1/2"}`} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var a, back Amount
		if json.Unmarshal(text, &a) != nil {
			return
		}
		written, err := json.Marshal(a)
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(written, &back), "%s was written as %s", text, written)
		require.Zero(t, a.Qty.Cmp(back.Qty))
		require.Zero(t, a.To.Cmp(back.To))
		require.True(t, a.Unit == back.Unit && a.ToTaste == back.ToTaste && a.About == back.About, "%s was written as %s", text, written)
		for _, p := range []Prefs{{}, {System: US}, {System: Imperial, Ladder: true}} {
			require.True(t, utf8.ValidString(Show(a, p)))
		}
	})
}

// FuzzParseAmount reads any text as an amount. What follows the amount is the end
// of the text; an error points into the text and returns all of it; the amount is
// exact, above 0, and shown with a figure that reads back near the same value.
func FuzzParseAmount(f *testing.F) {
	for _, s := range []string{"1 ½ lb", "2-3", "1,5 kg", "0", "-3 g", "1e9 kg", "to taste", "about 1⁄3 cup", "1/0", "½½", "\x00", "1 \u202fg", "1 fl. oz cream",
		"2 to 3 leaves", "5 imp. pints milk", "~3 Tbsp. oil", "1 1/2 1/2 g", "3. eggs", "1..5 g", "a little salt", "SOME", "a lİttle oil",
		"2 lb 8 oz beef", "1 and a half c. milk", "8 oz–1 lb ham", "half a dozen eggs", "1 quart + 1 cup", "1 kg 200 g–2 T."} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, rest, err := ParseAmount(s)
		if err != nil {
			ae, ok := err.(*AmountError)
			require.True(t, ok, "%q: %T", s, err)
			require.True(t, ae.Offset >= 0 && ae.Offset <= utf8.RuneCountInString(s), "%q: the error points outside the text: %v", s, err)
			require.True(t, ae.Msg != "" && ae.Do != "", "%q: %v", s, err)
			require.Equal(t, s, rest, "nothing is lost")
			require.Equal(t, Amount{}, a)
			return
		}
		require.True(t, strings.HasSuffix(strings.TrimSpace(s), rest), "%q: %q is not its end", s, rest)
		if a.ToTaste {
			require.Equal(t, Amount{ToTaste: true}, a)
			return
		}
		require.Equal(t, 1, a.Qty.Sign(), "%q: %s", s, a.Qty)
		require.True(t, a.To.IsZero() || a.To.Cmp(a.Qty) > 0, "%q: %s to %s", s, a.Qty, a.To)
		back := a.Scale(Frac(7, 3)).Scale(Frac(3, 7)) // exact: no rounding in between
		require.True(t, back.Qty.Cmp(a.Qty) == 0 && back.To.Cmp(a.To) == 0, "%q: scaled there and back, %v became %v", s, a, back)
		one := Amount{Qty: a.Qty, Unit: a.Unit}
		base := a.Qty.Mul(a.Unit.Factor).Float64()
		if base < 1 || base > 9e6 {
			return // shown with three figures, some of them 0; or rounded to more than any kitchen holds
		}
		for _, p := range []Prefs{{}, {System: US}, {System: Imperial}, {System: US, Ladder: true}} {
			shown := Show(one, p)
			sum := 0.0
			for left := shown; left != ""; {
				part, more, err := ParseAmount(left)
				require.NoError(t, err, "%q is shown as %q", s, shown)
				sum, left = sum+part.Qty.Mul(part.Unit.Factor).Float64(), more
			}
			// A gram of a pound, half a step of a jug, an eighth of a spoon or an ounce, a quarter of a cup beside gallons.
			require.InDelta(t, base, sum, 4+base*0.05, "%q is shown as %q", s, shown)
		}
	})
}
