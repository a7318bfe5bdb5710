package quantity

import (
	"strings"
	"unicode/utf8"
)

// A digitGroup is the digits behind a mark within a figure: "," and "500" in "1,500".
type digitGroup struct{ mark, digits string }

// decimal reads one figure without a fraction. A comma or a point parts thousands or
// decimals: "1,5", "0.125", "1,500,000", "1.000,5". Spaces at which a line does not
// break, thin spaces and apostrophes part thousands only.
//
// One comma or point with exactly three digits behind it can be either. The figure is
// then read as p.thousands says, and p.ambiguous is set. ok is false where there is no
// figure; p.odd is then what looks like one.
func (p *scanner) decimal() (n Number, ok bool) {
	start := p.at
	head := p.digits()
	if head == "" {
		return Number{}, false
	}
	var room [4]digitGroup
	groups := room[:0]
	for {
		g := p.group()
		if g.digits == "" {
			break
		}
		groups = append(groups, g)
	}
	digits, ok := p.join(head, groups)
	switch {
	case p.at-start > 30:
		ok = false
	case ok:
		n, ok = readNumber(digits)
	default:
		p.odd = p.text[start:p.at]
	}
	if !ok {
		p.at = start
	}
	return n, ok
}

// join returns the digits of a figure with a point before its decimals. ok is false
// when its marks are in places where neither thousands nor decimals begin.
func (p *scanner) join(head string, groups []digitGroup) (digits string, ok bool) {
	if len(groups) == 0 {
		return head, true
	}
	last := groups[len(groups)-1]
	point := last.mark == "." || last.mark == ","
	canPart := len(head) <= 3 && head[0] != '0' // so that thousands may follow
	if len(groups) == 1 {
		switch {
		case !point:
			return head + last.digits, canPart
		case !canPart || len(last.digits) != 3:
			return head + "." + last.digits, true
		}
		p.ambiguous = true
		if p.thousands {
			return head + last.digits, true
		}
		return head + "." + last.digits, true
	}
	digits, mark := head, groups[0].mark
	for _, g := range groups[:len(groups)-1] {
		if g.mark != mark || len(g.digits) != 3 {
			return "", false
		}
		digits += g.digits
	}
	switch {
	case last.mark == mark:
		return digits + last.digits, canPart && len(last.digits) == 3
	case point:
		return digits + "." + last.digits, canPart
	}
	return "", false
}

// digits reads the digits that come next, "" for none.
func (p *scanner) digits() string {
	start := p.at
	for p.at < len(p.text) && p.text[p.at] >= '0' && p.text[p.at] <= '9' {
		p.at++
	}
	return p.text[start:p.at]
}

// group reads a mark and the digits behind it; they are "" where no group comes next.
// A mark that only parts thousands needs exactly three digits.
func (p *scanner) group() digitGroup {
	r, n := utf8.DecodeRuneInString(p.text[p.at:])
	if n == 0 || !strings.ContainsRune(thousandsMarks+".,", r) {
		return digitGroup{}
	}
	start := p.at
	p.at += n
	g := digitGroup{p.text[start:p.at], p.digits()}
	if g.digits == "" || r != '.' && r != ',' && len(g.digits) != 3 {
		p.at = start
		return digitGroup{}
	}
	return g
}

// thousandsMarks part thousands and nothing else: the no-break space, the thin space,
// the narrow no-break space and both apostrophes.
const thousandsMarks = "\u00a0\u2009\u202f'’"
