package document

import (
	"errors"
	"strings"
	"unicode/utf8"

	"hobside/internal/quantity"
)

// Amount reads an amount off the front of s, which begins at offset at. It
// returns the rest of s, trimmed. ok is false when it added a problem.
func (f *File) Amount(s string, at int) (a quantity.Amount, rest string, ok bool) {
	a, rest, err := f.Measures.ParseAmount(s)
	if err == nil {
		return a, rest, true
	}
	var e *quantity.AmountError
	if !errors.As(err, &e) {
		f.Err(at, err.Error(), "", "")
		return a, s, false
	}
	runes := 0
	for i := range s { // its offset counts runes
		if runes == e.Offset {
			at += i
			break
		}
		runes++
	}
	if e.Doubtful {
		f.Err(at, `"`+Clip(s)+`" `+e.Msg, "", e.Do)
		return a, s, false
	}
	f.Err(at, `"`+Clip(s)+`": `+e.Msg, "", e.Do)
	return a, s, false
}

// Count reads a whole number from 1 to most. ok is false when it added a problem:
// that s, which begins at offset at, is what, or that it can be read in two ways.
func (f *File) Count(s string, at, most int, what, do string) (n int, ok bool) {
	n, err := quantity.ParseCount(s, most)
	if err == nil {
		return n, true
	}
	var e *quantity.AmountError
	if errors.As(err, &e) && e.Doubtful {
		f.Err(at, `"`+Clip(s)+`" `+e.Msg, "", e.Do)
		return 0, false
	}
	f.Err(at, `"`+Clip(s)+`" is `+what, "", do)
	return 0, false
}

// BeginsWithAmount reports whether a line begins with what is meant as an
// amount.
func BeginsWithAmount(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	switch {
	case r >= '0' && r <= '9', r == '-', r == '−', r == '~', r == '.', vulgarFraction(r) > 0:
		return true
	}
	for _, w := range [...]string{"half a ", "half an ", "to taste", "as needed", "a little ", "some ", "about ", "approx", "ca. ", "c. "} {
		if HasPrefixFold(s, w) {
			return true
		}
	}
	return false
}

// Percent reads "68 %" as 68. ok is false for anything else.
func Percent(s string) (n quantity.Number, ok bool) {
	s, ok = strings.CutSuffix(strings.TrimSpace(s), "%")
	if !ok {
		return n, false
	}
	return Number(s)
}

// Number reads a figure without a unit. ok is false for anything else, for 0 and
// for a figure below 0.
func Number(s string) (n quantity.Number, ok bool) {
	n, ok = quantity.ParseNumber(s)
	return n, ok && n.Sign() > 0
}

// Share reads the value of a fact as a share: "5 %" is 1/20. For anything but 0
// to 100 % it adds a problem and returns 0.
func (f *File) Share(fact Fact) quantity.Number {
	n, ok := Percent(fact.Value)
	if !ok || n.Sign() < 0 || n.Cmp(quantity.Int(100)) > 0 {
		f.Err(fact.ValueAt, `"`+fact.Value+`" is not a share`, "", `write it like "`+fact.Word+`: 5 %", from 0 to 100 %`)
		return quantity.Number{}
	}
	return n.Mul(quantity.Frac(1, 100))
}

// Density reads grams per millilitre: "1.03", "1.03 g/ml". ok is false for anything that
// no food weighs.
func Density(s string) (n quantity.Number, ok bool) {
	s = strings.TrimSpace(s)
	low := strings.ToLower(s)
	for _, unit := range [...]string{"g/ml", "g per ml", "kg/l", "kg per l"} {
		if strings.HasSuffix(low, unit) {
			s = s[:len(s)-len(unit)]
			break
		}
	}
	n, ok = Number(s)
	// Foam is about 0.1, glucose syrup 1.4; 25 is a litre typed for a millilitre.
	return n, ok && n.Cmp(quantity.Frac(1, 50)) >= 0 && n.Cmp(quantity.Int(25)) <= 0
}
