package quantity

import (
	"math"
	"math/big"
)

// A large is a number that does not fit two machine words, in lowest terms and
// never 0. It holds the words of math/big and not a *big.Rat: encoding/json would
// find its methods by reflection, and the linker would keep them all.
type large struct {
	num, den []big.Word // never changed, so that copies can share them
	neg      bool
}

// pair returns x as num/den with den > 0. The caller must not change them.
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

// reduced returns num/den in lowest terms and changes both. Den must not be 0.
func reduced(num, den *big.Int) Number {
	if den.Sign() < 0 {
		num.Neg(num)
		den.Neg(den)
	}
	// Euclid's algorithm: the numbers are a few words long, and big.Int.GCD is made
	// for thousands.
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

// Rat returns x as a new big.Rat. Tests compare with the standard library by it.
func (x Number) Rat() *big.Rat {
	num, den := x.pair()
	return new(big.Rat).SetFrac(num, den)
}
