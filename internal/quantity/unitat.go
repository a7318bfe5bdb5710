package quantity

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// unit reads the longest unit, of up to three words, that comes next. It is [Each] where
// none does. A scale's unit leaves no doubt about the figure before it ("1.250 kg"); what
// was in doubt before that figure stays so.
func (p *scanner) unit(ambiguous bool) *Unit {
	u, n := unitAt(p.text[p.at:])
	u = p.measures.unit(u, p.text[p.at:p.at+n])
	p.at += n
	if u.scaleDecimals() {
		p.ambiguous = ambiguous
	}
	return u
}

// endsInUnit reports whether a unit comes next: of "28-oz", behind the hyphen.
func (p *scanner) endsInUnit() bool {
	u, _ := unitAt(p.text[p.at:])
	return u != Each
}

// unitAt returns the longest unit, of up to three words, at the front of s and how many
// bytes it is. The unit is [Each] where s begins with none.
func unitAt(s string) (u *Unit, n int) {
	ends := make([]int, 0, 3)
	for i := 0; i < len(s) && len(ends) < 3; {
		r, size := utf8.DecodeRuneInString(s[i:])
		if unicode.IsLetter(r) || r == '.' {
			i += size
			if i == len(s) {
				ends = append(ends, i)
			}
			continue
		}
		if i > 0 && (len(ends) == 0 || ends[len(ends)-1] != i) {
			ends = append(ends, i)
		}
		if r != ' ' || len(ends) == 1 && !headWords[strings.ToLower(strings.ReplaceAll(s[:i], ".", ""))] {
			break
		}
		i += size
	}
	for k := len(ends) - 1; k >= 0; k-- {
		if u, ok := LookupUnit(s[:ends[k]]); ok && !hyphened(s, ends[k]) {
			return u, ends[k]
		}
	}
	if dot := strings.IndexByte(s, '.'); dot > 1 && len(ends) > 0 && dot < ends[0] { // "tsp.sugar"
		if u, ok := LookupUnit(s[:dot]); ok {
			return u, dot + 1
		}
	}
	return Each, 0
}

// hyphened reports whether a unit of one letter goes on as another word: the T of
// "T-bone".
func hyphened(s string, end int) bool {
	if end != 1 || end == len(s) {
		return false
	}
	switch s[0] {
	case 'T', 't', 'C', 'c':
		r, _ := utf8.DecodeRuneInString(s[end:])
		return r == '-' || r == '\'' || r == '’' || r == '\u2010' || r == '\u2011'
	}
	return false
}
