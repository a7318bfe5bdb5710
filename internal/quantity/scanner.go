package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// isWord reports whether s begins with a letter or a digit.
func isWord(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r) || unicode.IsDigit(r)
}

// A scanner reads the figures at the front of a text. Each of its methods moves on
// only when it finds what it reads.
type scanner struct {
	text      string
	at        int // bytes read so far
	measures  Measures
	begin     int    // where the first figure begins
	thousands bool   // read "1,500" as 1500 and not as 1.5
	ambiguous bool   // a figure was read that has both readings
	odd       string // what looks like a figure and is none, "1.5.2"; "" for nothing
}

// fault returns an AmountError at a byte of the text.
func (p *scanner) fault(at int, msg, do string) error {
	return &AmountError{Offset: utf8.RuneCountInString(p.text[:at]), Msg: msg, Do: do}
}

// spaces skips white space.
func (p *scanner) spaces() {
	for p.at < len(p.text) {
		r, n := utf8.DecodeRuneInString(p.text[p.at:])
		if !unicode.IsSpace(r) {
			return
		}
		p.at += n
	}
}

// word skips w, in whatever case it is typed. It compares bytes and not the whole
// text in lower case: that can be shorter than the text.
func (p *scanner) word(w string) bool {
	left := p.text[p.at:]
	if len(left) < len(w) || !strings.EqualFold(left[:len(w)], w) {
		return false
	}
	p.at += len(w)
	return true
}

// dash skips the sign or the word of a range.
func (p *scanner) dash() bool {
	for _, d := range [...]string{"–", "—", "-", "to ", "or "} {
		if strings.HasPrefix(p.text[p.at:], d) {
			p.at += len(d)
			return true
		}
	}
	return false
}

// vulgar are the fraction signs of Unicode.
var vulgar = map[rune]Number{
	'½': Frac(1, 2), '⅓': Frac(1, 3), '⅔': Frac(2, 3), '¼': Frac(1, 4), '¾': Frac(3, 4), '⅕': Frac(1, 5), '⅖': Frac(2, 5),
	'⅗': Frac(3, 5), '⅘': Frac(4, 5), '⅙': Frac(1, 6), '⅚': Frac(5, 6), '⅛': Frac(1, 8), '⅜': Frac(3, 8), '⅝': Frac(5, 8), '⅞': Frac(7, 8),
}

// slash skips the sign between the two figures of a fraction: a slash, or one of the two
// of Unicode.
func (p *scanner) slash() bool {
	for _, sign := range [...]string{"/", "⁄", "∕"} {
		if strings.HasPrefix(p.text[p.at:], sign) {
			p.at += len(sign)
			return true
		}
	}
	return false
}

// number reads "500", "1.5", "1,5", "1/2", "1 1/2", "1½", "½", "1 and 1/2", "1 and a half".
func (p *scanner) number() (Number, bool) {
	begin := p.at
	whole, ok := p.decimal()
	if !ok {
		return p.fraction()
	}
	mark := p.at
	if p.slash() {
		if d, ok := p.decimal(); ok && d.Sign() > 0 {
			if !whole.IsInt() || !d.IsInt() || whole.Cmp(Int(10)) >= 0 && whole.Cmp(d) > 0 { // "11/2" for 1 1/2
				p.odd = strings.TrimSpace(p.text[begin:p.at])
				return Number{}, false
			}
			return whole.Quo(d), true
		}
		p.at = mark
		return whole, true
	}
	p.spaces()
	if f, ok := p.fraction(); ok {
		return whole.Add(f), true
	}
	if p.word("and ") || p.word("& ") {
		p.spaces()
		if f, ok := p.fraction(); ok {
			return whole.Add(f), true
		}
		if part, ok := p.spokenBehind(); ok {
			return whole.Add(part), true
		}
	}
	p.at = mark
	return whole, true
}

// spokenParts are the fractions that may stand in words behind a whole number.
var spokenParts = [...]struct {
	words string
	n     Number
}{{"a half", Frac(1, 2)}, {"a quarter", Frac(1, 4)}, {"a third", Frac(1, 3)}, {"three quarters", Frac(3, 4)}, {"two thirds", Frac(2, 3)}}

// wholeWord skips w where no letter or digit follows it.
func (p *scanner) wholeWord(w string) bool {
	mark := p.at
	if p.word(w) && !isWord(p.text[p.at:]) {
		return true
	}
	p.at = mark
	return false
}

// fraction reads "½" or "1/2", but no whole number.
func (p *scanner) fraction() (Number, bool) {
	r, n := utf8.DecodeRuneInString(p.text[p.at:])
	if f, ok := vulgar[r]; ok {
		p.at += n
		return f, true
	}
	mark := p.at
	if top, ok := p.decimal(); ok && p.slash() {
		if d, ok := p.decimal(); ok && d.Sign() > 0 {
			return top.Quo(d), true
		}
	}
	p.at = mark
	return Number{}, false
}
