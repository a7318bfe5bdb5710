package quantity

import (
	"math"
	"math/big"
)

// A Number is an exact rational. The zero value is 0. No operation changes its
// operands. Compare numbers with [Number.Cmp] and not with ==, because a large one
// is held by pointer.
//
// Nearly every number of a kitchen fits two machine words. One that does not is
// computed with math/big, and nothing is ever rounded.
type Number struct {
	num int64
	den int64  // 0 means 1, so that the zero value is 0/1; else > 0 and coprime with num
	big *large // set only when num/den does not fit
}

// Int returns the number n.
func Int(n int64) Number {
	if n == math.MinInt64 {
		return reduced(big.NewInt(n), big.NewInt(1)) // −MinInt64 does not fit 64 bits, so num never holds it
	}
	return Number{num: n, den: 1}
}

// Frac returns n/d. It panics when d is 0.
func Frac(n, d int64) Number {
	if d == 0 {
		panic("quantity: fraction with denominator 0")
	}
	if n == math.MinInt64 || d == math.MinInt64 {
		return reduced(big.NewInt(n), big.NewInt(d))
	}
	if d < 0 {
		n, d = -n, -d
	}
	if g := gcd(abs(n), d); g > 1 {
		n, d = n/g, d/g
	}
	return Number{num: n, den: d}
}

// d returns the denominator of a number that is not large.
func (x Number) d() int64 {
	if x.den == 0 {
		return 1
	}
	return x.den
}

// Add returns x + y.
func (x Number) Add(y Number) Number {
	switch {
	case x.big == nil && x.num == 0:
		return y
	case y.big == nil && y.num == 0:
		return x
	case x.big == nil && y.big == nil:
		if xd, yd := x.d(), y.d(); xd == yd {
			if s, ok := addInt(x.num, y.num); ok {
				return Frac(s, xd)
			}
		} else {
			// Use the least common denominator: amounts of one dinner share most
			// of their factors, so the result fits two words more often.
			g := gcd(xd, yd)
			a, ok1 := mulInt(x.num, yd/g)
			b, ok2 := mulInt(y.num, xd/g)
			d, ok3 := mulInt(xd/g, yd)
			if s, ok4 := addInt(a, b); ok1 && ok2 && ok3 && ok4 {
				return Frac(s, d)
			}
		}
	}
	a, b := x.pair()
	c, d := y.pair()
	ad, cb := new(big.Int).Mul(a, d), new(big.Int).Mul(c, b)
	return reduced(ad.Add(ad, cb), new(big.Int).Mul(b, d))
}

// Sub returns x − y.
func (x Number) Sub(y Number) Number { return x.Add(y.Neg()) }

// Neg returns −x.
func (x Number) Neg() Number {
	if x.big == nil {
		return Number{num: -x.num, den: x.den} // num never holds MinInt64
	}
	return Number{big: &large{num: x.big.num, den: x.big.den, neg: !x.big.neg}}
}

// Mul returns x × y.
func (x Number) Mul(y Number) Number {
	switch {
	case x.big == nil && (x.num == 0 || x.num == 1 && x.d() == 1):
		if x.num == 0 {
			return Number{}
		}
		return y
	case y.big == nil && (y.num == 0 || y.num == 1 && y.d() == 1):
		if y.num == 0 {
			return Number{}
		}
		return x
	case x.big == nil && y.big == nil:
		// Reduce crosswise first: the product is then in lowest terms and
		// overflows least often.
		xn, xd, yn, yd := x.num, x.d(), y.num, y.d()
		if g := gcd(abs(xn), yd); g > 1 {
			xn, yd = xn/g, yd/g
		}
		if g := gcd(abs(yn), xd); g > 1 {
			yn, xd = yn/g, xd/g
		}
		n, ok1 := mulInt(xn, yn)
		d, ok2 := mulInt(xd, yd)
		if ok1 && ok2 {
			return Number{num: n, den: d}
		}
	}
	a, b := x.pair()
	c, d := y.pair()
	return reduced(new(big.Int).Mul(a, c), new(big.Int).Mul(b, d))
}

// Quo returns x ÷ y. It panics when y is 0; check [Number.IsZero] first where y
// comes from outside.
func (x Number) Quo(y Number) Number {
	if y.IsZero() {
		panic("quantity: division by 0")
	}
	if y.big != nil {
		a, b := x.pair()
		c, d := y.pair()
		return reduced(new(big.Int).Mul(a, d), new(big.Int).Mul(b, c))
	}
	return x.Mul(Frac(y.d(), y.num))
}

// Cmp returns −1, 0 or +1 as x is less than, equal to or greater than y.
func (x Number) Cmp(y Number) int {
	if a, b := x.Sign(), y.Sign(); a != b || a == 0 {
		return max(-1, min(1, a-b))
	}
	if x.big == nil && y.big == nil {
		if a, ok := mulInt(x.num, y.d()); ok {
			if b, ok := mulInt(y.num, x.d()); ok {
				switch {
				case a < b:
					return -1
				case a > b:
					return 1
				}
				return 0
			}
		}
	}
	a, b := x.pair()
	c, d := y.pair()
	return new(big.Int).Mul(a, d).Cmp(new(big.Int).Mul(c, b))
}

// Sign returns −1, 0 or +1.
func (x Number) Sign() int {
	if x.big != nil {
		if x.big.neg {
			return -1
		}
		return 1
	}
	switch {
	case x.num < 0:
		return -1
	case x.num > 0:
		return 1
	}
	return 0
}

// IsZero reports whether x is 0.
func (x Number) IsZero() bool { return x.Sign() == 0 }

// IsInt reports whether x is a whole number.
func (x Number) IsInt() bool {
	if x.big != nil {
		return len(x.big.den) == 1 && x.big.den[0] == 1
	}
	return x.d() == 1
}

// Floor returns the greatest whole number not above x.
func (x Number) Floor() Number {
	if x.big != nil {
		num, den := x.pair()
		return reduced(new(big.Int).Div(num, den), big.NewInt(1)) // Euclidean division rounds down when the divisor is positive
	}
	q := x.num / x.d()
	if x.num%x.d() != 0 && x.num < 0 {
		q--
	}
	return Int(q)
}

// Ceil returns the least whole number not below x.
func (x Number) Ceil() Number { return x.Neg().Floor().Neg() }

// Int64 returns x as an int64; ok is false when x is not whole or does not fit.
func (x Number) Int64() (n int64, ok bool) {
	if x.big != nil || x.d() != 1 {
		return 0, false
	}
	return x.num, true
}

// Float64 returns the float64 nearest to x, for forecasts and pictures. Amounts are
// never computed with it.
func (x Number) Float64() float64 {
	if x.big != nil {
		num, den := x.pair()
		f, _ := new(big.Rat).SetFrac(num, den).Float64()
		return f
	}
	return float64(x.num) / float64(x.d())
}
