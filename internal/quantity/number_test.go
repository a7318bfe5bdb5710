package quantity

import (
	"math"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// drawNumber draws small and huge numbers, so that both forms of a Number are tested.
func drawNumber(t *rapid.T, name string) Number {
	n := rapid.OneOf(rapid.Int64Range(-1000, 1000), rapid.Int64()).Draw(t, name+" over")
	d := rapid.OneOf(rapid.Int64Range(1, 1000), rapid.Int64Range(1, math.MaxInt64)).Draw(t, name+" under")
	return Frac(n, d)
}

// The oracle is the standard library's math/big.
func TestArithmeticMatchesMathBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := drawNumber(t, "x"), drawNumber(t, "y")
		same := func(op string, got Number, want *big.Rat) {
			if got.Rat().Cmp(want) != 0 {
				t.Fatalf("%s %s %s = %s, math/big says %s", x, op, y, got, want.RatString())
			}
		}
		same("+", x.Add(y), new(big.Rat).Add(x.Rat(), y.Rat()))
		same("-", x.Sub(y), new(big.Rat).Sub(x.Rat(), y.Rat()))
		same("×", x.Mul(y), new(big.Rat).Mul(x.Rat(), y.Rat()))
		if !y.IsZero() {
			same("÷", x.Quo(y), new(big.Rat).Quo(x.Rat(), y.Rat()))
		}
		if got, want := x.Cmp(y), x.Rat().Cmp(y.Rat()); got != want {
			t.Fatalf("%s Cmp %s = %d, want %d", x, y, got, want)
		}
		floor := x.Floor()
		if !floor.IsInt() || floor.Cmp(x) > 0 || floor.Add(Int(1)).Cmp(x) <= 0 {
			t.Fatalf("floor of %s is %s", x, floor)
		}
	})
}

func TestNumberTextRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := drawNumber(t, "x").Mul(drawNumber(t, "y"))
		text, err := x.MarshalText()
		if err != nil {
			t.Fatal(err)
		}
		var back Number
		if err := back.UnmarshalText(text); err != nil || back.Cmp(x) != 0 {
			t.Fatalf("%s came back as %s, %v", x, back, err)
		}
	})
}

func TestTextThatIsNoNumberIsRefused(t *testing.T) {
	for _, in := range []string{"", "1e9", "1e999999999", "0x10", "1/0", "one", "1 2", "NaN", "Inf", "--1"} {
		var n Number
		assert.Error(t, n.UnmarshalText([]byte(in)), "%q", in)
	}
}

func TestZeroValueIsZero(t *testing.T) {
	var n Number
	assert.True(t, n.IsZero())
	assert.Equal(t, "0", n.String())
	assert.Zero(t, n.Add(Frac(1, 2)).Cmp(Frac(1, 2)))
	assert.Panics(t, func() { Int(1).Quo(n) })
}

func TestLargestNumbersDoNotOverflow(t *testing.T) {
	most := Int(math.MaxInt64)
	require.Equal(t, 1, most.Add(most).Sign())
	require.Equal(t, 1, most.Mul(most).Sign())
	require.Equal(t, -1, Int(math.MinInt64).Sub(most).Sign())
	require.Equal(t, 1, Int(math.MinInt64).Neg().Sign())
}

// The oracle is the standard library's math/big, for writing and for reading.
func TestDigitsMatchMathBig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := drawNumber(t, "x")
		for range rapid.IntRange(0, 3).Draw(t, "times") {
			x = x.Mul(drawNumber(t, "y")) // into the hundreds of digits
		}
		require.Equal(t, x.Rat().RatString(), x.String())
		places := rapid.IntRange(0, 9).Draw(t, "places")
		want := x.Rat().FloatString(places)
		require.Equal(t, want, x.Decimal(places))
		var back Number
		require.NoError(t, back.UnmarshalText([]byte(want)))
		wanted, ok := new(big.Rat).SetString(want)
		require.True(t, ok)
		require.Zero(t, wanted.Cmp(back.Rat()), "%s read as %s", want, back)
	})
}

func TestReadingNumbersMatchesMathBig(t *testing.T) {
	for _, in := range []string{"0", "-0", "007", ".5", "5.", "-1.25", "3/4", "-3/4", "6/4", "1" + strings.Repeat("0", 60), "0." + strings.Repeat("1", 50),
		"123456789012345678901234567890/7", "-", ".", "1/-2", "1.5/2", "/2", "1/", "1..2", "+1", "1_0", "١"} {
		want, ok := new(big.Rat).SetString(in)
		ok = ok && !strings.ContainsAny(in, "+_") // math/big reads these, files never hold them
		if in == "1.5/2" {
			ok = false
		}
		var n Number
		err := n.UnmarshalText([]byte(in))
		if !ok {
			assert.Error(t, err, "%q", in)
			continue
		}
		if assert.NoError(t, err, "%q", in) {
			assert.Zero(t, want.Cmp(n.Rat()), "%q read as %s", in, n)
		}
	}
}
