package quantity

import (
	"math"
	"math/big"
)

// A large is a number that does not fit two machine words, in lowest terms, and
// never 0. It holds the bare words of math/big: a *big.Rat in here would be in
// sight of encoding/json, and with it every way there is of writing one.
type large struct {
	num, den []big.Word // never changed, so that copies may share them
	neg      bool
}

// pair is x as math/big knows it, num/den with den > 0, for reading only.
func (x Number) pair() (num, den *big.Int) {
	if x.big == nil {
		return big.NewInt(x.num), big.NewInt(x.d())
	}
	num, den = new(big.Int).SetBits(x.big.num), new(big.Int).SetBits(x.big.den)
	if x.big.neg {
		num.Neg(num)
	}
	return num, den
}

// reduced is num/den in lowest terms; it takes both over. Den must not be 0.
func reduced(num, den *big.Int) Number {
	if den.Sign() < 0 {
		num.Neg(num)
		den.Neg(den)
	}
	// Euclid's own way: these are a few words long, and big.Int.GCD is made for
	// thousands.
	g, rest := new(big.Int).Set(den), new(big.Int).Abs(num)
	for rest.Sign() != 0 {
		g, rest = rest, g.Rem(g, rest)
	}
	num.Quo(num, g)
	den.Quo(den, g)
	if num.IsInt64() && den.IsInt64() && num.Int64() != math.MinInt64 {
		return Number{num: num.Int64(), den: den.Int64()}
	}
	return Number{big: &large{num: num.Bits(), den: den.Bits(), neg: num.Sign() < 0}}
}

// Rat returns x as a new big.Rat, for callers that need the general library.
func (x Number) Rat() *big.Rat {
	num, den := x.pair()
	return new(big.Rat).SetFrac(num, den)
}
