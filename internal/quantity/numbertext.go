package quantity

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
)

// Numbers are read and written here and not by math/big, whose reader and writer
// also handle exponents, other bases and thousands of digits. They would make the
// engine that a phone fetches larger.

const (
	chunk  = 18 // so many digits always fit an int64
	chunks = 1_000_000_000_000_000_000
)

// String returns x exactly, as "3" or "7/3". [Number.UnmarshalText] reads it.
func (x Number) String() string {
	if x.big != nil {
		num, den := x.pair()
		if x.IsInt() {
			return writeInt(num)
		}
		return writeInt(num) + "/" + writeInt(den)
	}
	if x.d() == 1 {
		return strconv.FormatInt(x.num, 10)
	}
	return strconv.FormatInt(x.num, 10) + "/" + strconv.FormatInt(x.den, 10)
}

// Decimal returns x with exactly the given number of decimals, rounded to the
// nearest, halves away from zero: Frac(5, 2).Decimal(0) is "3".
func (x Number) Decimal(places int) string {
	scale := Int(1)
	for range places {
		scale = scale.Mul(Int(10))
	}
	sign := ""
	if x.Sign() < 0 {
		sign, x = "-", x.Neg()
	}
	s := x.Mul(scale).Add(Frac(1, 2)).Floor().String()
	if places == 0 {
		return sign + s
	}
	if short := places + 1 - len(s); short > 0 {
		s = strings.Repeat("0", short) + s
	}
	return sign + s[:len(s)-places] + "." + s[len(s)-places:]
}

// writeInt returns the decimal digits of n.
func writeInt(n *big.Int) string {
	if n.IsInt64() {
		return strconv.FormatInt(n.Int64(), 10)
	}
	high, low := new(big.Int).QuoRem(n, big.NewInt(chunks), new(big.Int))
	s := strconv.FormatInt(max(low.Int64(), -low.Int64()), 10)
	return writeInt(high) + strings.Repeat("0", chunk-len(s)) + s
}

// MarshalText returns the exact form, so that a number in JSON is a string such as
// "7/3". JavaScript's own numbers would round it.
func (x Number) MarshalText() ([]byte, error) { return []byte(x.String()), nil }

// UnmarshalText reads the exact form ("7/3") or a decimal ("1.25"). Anything else,
// a division by zero and a text of more than 200 bytes are errors; x is then
// unchanged.
func (x *Number) UnmarshalText(b []byte) error {
	if len(b) > 200 {
		return fmt.Errorf("a number of %d characters is too long: at most 200 are read", len(b))
	}
	n, ok := readNumber(string(b))
	if !ok {
		return fmt.Errorf("%q is not a number: write it like 3, 7/3 or 1.25", b)
	}
	*x = n
	return nil
}

// readNumber reads what [Number.UnmarshalText] describes.
func readNumber(s string) (Number, bool) {
	s, negative := strings.CutPrefix(s, "-")
	top, under, isFraction := strings.Cut(s, "/")
	var n Number
	if isFraction {
		over, ok1 := readInt(top)
		by, ok2 := readInt(under)
		if !ok1 || !ok2 || by.IsZero() {
			return Number{}, false
		}
		n = over.Quo(by)
	} else {
		whole, places, _ := strings.Cut(s, ".")
		digits, ok := readInt(whole + places)
		if !ok {
			return Number{}, false
		}
		n = digits
		for at := 0; at < len(places); at += chunk {
			n = n.Quo(tenTo(min(chunk, len(places)-at)))
		}
	}
	if negative {
		n = n.Neg()
	}
	return n, true
}

// readInt reads a whole number of at least one digit, without a sign.
func readInt(s string) (Number, bool) {
	if s == "" {
		return Number{}, false
	}
	var n Number
	for s != "" {
		k := min(chunk, len(s))
		var part int64
		for i := range k {
			if s[i] < '0' || s[i] > '9' {
				return Number{}, false
			}
			part = 10*part + int64(s[i]-'0')
		}
		if n.IsZero() {
			n = Int(part)
		} else {
			n = n.Mul(tenTo(k)).Add(Int(part))
		}
		s = s[k:]
	}
	return n, true
}

// tenTo returns 10 to the power k, for k up to chunk.
func tenTo(k int) Number {
	n := int64(1)
	for range k {
		n *= 10
	}
	return Int(n)
}
