package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// An AmountError says what is wrong with a typed amount and where in it.
type AmountError struct {
	Offset int    // runes from the start of the text
	Msg    string // what is wrong: lower case, no full stop
	Hint   string // the word meant, "" where we would only guess
	Do     string // what to do
}

func (e *AmountError) Error() string {
	s := e.Msg
	if e.Hint != "" {
		s += "; did you mean \"" + e.Hint + "\"?"
	}
	if e.Do != "" {
		s += "; " + e.Do
	}
	return s
}

// Limits above which an amount is surely a slip of the finger.
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
// hyphen, a dash or "to". A bare number counts pieces.
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

// check refuses nothing, and amounts no kitchen has.
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

// unitAt takes the longest unit, of up to three words, off the front of s. A
// text without one counts pieces.
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

func isWord(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r) || unicode.IsDigit(r)
}

// A scanner walks over the figures of an amount.
type scanner struct {
	text string
	at   int // bytes
}

func (p *scanner) fault(at int, msg, do string) error {
	return &AmountError{Offset: utf8.RuneCountInString(p.text[:at]), Msg: msg, Do: do}
}

func (p *scanner) spaces() {
	for p.at < len(p.text) {
		r, n := utf8.DecodeRuneInString(p.text[p.at:])
		if !unicode.IsSpace(r) && r != '\u202f' { // the narrow no-break space of printed figures
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

func (p *scanner) dash() bool {
	for _, d := range [...]string{"–", "—", "-", "to "} {
		if strings.HasPrefix(p.text[p.at:], d) {
			p.at += len(d)
			return true
		}
	}
	return false
}

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

// fraction reads "½" or "1/2", and nothing that has no bar.
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

// decimal reads digits with at most one point or comma between them.
func (p *scanner) decimal() (Number, bool) {
	start, point := p.at, -1
	for p.at < len(p.text) {
		c := p.text[p.at]
		if c >= '0' && c <= '9' {
			p.at++
			continue
		}
		next := p.at + 1
		if (c == '.' || c == ',') && point < 0 && p.at > start && next < len(p.text) && p.text[next] >= '0' && p.text[next] <= '9' {
			point = p.at
			p.at++
			continue
		}
		break
	}
	if p.at == start || p.at-start > 30 {
		p.at = start
		return Number{}, false
	}
	n, ok := readNumber(strings.Replace(p.text[start:p.at], ",", ".", 1))
	if !ok {
		p.at = start
	}
	return n, ok
}
