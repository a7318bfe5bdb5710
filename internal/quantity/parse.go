package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// An AmountError says what is wrong with a typed amount, where, and what to do.
type AmountError struct {
	Offset int    // where, in runes from the start of the text
	Msg    string // what is wrong: lower case, no full stop
	Do     string // what to do
}

// Error returns what is wrong and what to do.
func (e *AmountError) Error() string {
	s := e.Msg
	if e.Do != "" {
		s += "; " + e.Do
	}
	return s
}

// Amounts above these are taken for typing mistakes: 10 t, 10,000 litres, a million
// pieces. Common practice, no source.
var (
	mostGrams = Int(10_000_000)
	mostMl    = Int(10_000_000)
	mostCount = Int(1_000_000)
)

// ParseAmount reads the amount at the front of a text and returns what follows
// it, trimmed: "1 ½ lb chicken", "2–3 cloves garlic", "1,5 kg flour", "3 eggs",
// "about 1.6 kg", "to taste".
//
// A comma between digits is a decimal comma. A range may be written with a
// hyphen, a dash or "to". A number without a unit counts pieces.
//
// A text without an amount, an amount of 0, below 0 or above what a kitchen holds,
// and a range that does not rise give an [*AmountError] and the whole text as rest.
func ParseAmount(text string) (a Amount, rest string, err error) {
	p := &scanner{text: text}
	p.spaces()
	for _, w := range [...]string{"to taste", "as needed", "a little", "some"} {
		if mark := p.at; p.word(w) {
			if after := p.text[p.at:]; after == "" || !isWord(after) {
				return Amount{ToTaste: true}, strings.TrimSpace(after), nil
			}
			p.at = mark
		}
	}
	for _, w := range [...]string{"about ", "approx. ", "approx ", "ca. ", "c. ", "~"} {
		if p.word(w) {
			a.About = true
			p.spaces()
			break
		}
	}
	start := p.at
	if strings.HasPrefix(p.text[p.at:], "-") || strings.HasPrefix(p.text[p.at:], "−") {
		return Amount{}, text, p.fault(start, "an amount can't be negative", "type how much goes in")
	}
	var ok bool
	if a.Qty, ok = p.number(); !ok {
		return Amount{}, text, p.fault(start, "no amount here", `type a number and a unit, such as "500 g", or "to taste"`)
	}
	mark := p.at
	p.spaces()
	if p.dash() {
		p.spaces()
		if a.To, ok = p.number(); !ok {
			return Amount{}, text, p.fault(p.at, "a range without an upper end", `type both ends, such as "2–3"`)
		}
		if a.To.Cmp(a.Qty) <= 0 {
			return Amount{}, text, p.fault(start, "a range whose upper end is not above its lower", "swap them or type one number")
		}
	} else {
		p.at = mark
	}
	if r, _ := utf8.DecodeRuneInString(p.text[p.at:]); r == 'e' || r == 'E' {
		if next := p.text[p.at+1:]; next != "" && next[0] >= '0' && next[0] <= '9' {
			return Amount{}, text, p.fault(start, "a number in powers of ten", "write it out in full")
		}
	}
	p.spaces()
	a.Unit, rest = unitAt(p.text[p.at:])
	if err := p.check(a, start); err != nil {
		return Amount{}, text, err
	}
	return a, rest, nil
}

// check refuses an amount of 0 and one that no kitchen has. start is where the
// amount begins, in bytes.
func (p *scanner) check(a Amount, start int) error {
	if a.Qty.IsZero() {
		return p.fault(start, "an amount of 0", "leave the line out, or mark the item optional")
	}
	most := mostCount
	switch a.Unit.Dim {
	case Mass:
		most = mostGrams
	case Volume:
		most = mostMl
	}
	if a.Need().Mul(a.Unit.Factor).Cmp(most) > 0 {
		return p.fault(start, "more than any kitchen holds", "check the number and its unit")
	}
	return nil
}

// unitAt returns the longest unit, of up to three words, at the front of s and what
// follows it, trimmed. The unit is [Each] where s begins with none.
func unitAt(s string) (*Unit, string) {
	ends := make([]int, 0, 3)
	for i := 0; i < len(s) && len(ends) < 3; {
		r, n := utf8.DecodeRuneInString(s[i:])
		if unicode.IsLetter(r) || r == '.' {
			i += n
			if i == len(s) {
				ends = append(ends, i)
			}
			continue
		}
		if i > 0 && (len(ends) == 0 || ends[len(ends)-1] != i) {
			ends = append(ends, i)
		}
		if r != ' ' {
			break
		}
		i += n
	}
	for k := len(ends) - 1; k >= 0; k-- {
		if u, ok := LookupUnit(s[:ends[k]]); ok {
			return u, strings.TrimSpace(s[ends[k]:])
		}
	}
	return Each, strings.TrimSpace(s)
}
