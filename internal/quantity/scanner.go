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
	at        int    // bytes read so far
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
	for _, d := range [...]string{"–", "—", "-", "to "} {
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

// number reads "500", "1.5", "1,5", "1/2", "1 1/2", "1½", "½".
func (p *scanner) number() (Number, bool) {
	whole, ok := p.decimal()
	if !ok {
		return p.fraction()
	}
	if p.at < len(p.text) && p.text[p.at] == '/' {
		mark := p.at
		p.at++
		if d, ok := p.decimal(); ok && d.Sign() > 0 {
			return whole.Quo(d), true
		}
		p.at = mark
		return whole, true
	}
	mark := p.at
	p.spaces()
	if f, ok := p.fraction(); ok {
		return whole.Add(f), true
	}
	p.at = mark
	return whole, true
}

// fraction reads "½" or "1/2", but no whole number.
func (p *scanner) fraction() (Number, bool) {
	r, n := utf8.DecodeRuneInString(p.text[p.at:])
	if f, ok := vulgar[r]; ok {
		p.at += n
		return f, true
	}
	mark := p.at
	if top, ok := p.decimal(); ok && p.at < len(p.text) && (p.text[p.at] == '/' || strings.HasPrefix(p.text[p.at:], "⁄")) {
		_, n := utf8.DecodeRuneInString(p.text[p.at:])
		p.at += n
		if d, ok := p.decimal(); ok && d.Sign() > 0 {
			return top.Quo(d), true
		}
	}
	p.at = mark
	return Number{}, false
}
