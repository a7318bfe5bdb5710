package quantity

import "strings"

// spoken reads an amount whose figure is a word: "half a lemon", "a dozen eggs", "a pinch
// of salt", "three-quarters cup". ok is false for "half and half", which is a good. Whole
// numbers in words are read by [scanner.figure].
func (p *scanner) spoken() (n Number, ok bool) {
	mark := p.at
	if n, ok := p.spokenPart(); ok {
		return n, true
	}
	p.at = mark
	if p.word("a ") || p.word("an ") {
		after := p.at
		if u, _ := unitAt(p.text[p.at:]); u != Each || p.several() > 1 {
			p.at = after
			return Int(1), true
		}
	}
	p.at = mark
	return Number{}, false
}

// partWords are the words for a part of one, longest first.
var partWords = [...]struct {
	words string
	n     Number
}{
	{"three quarters", Frac(3, 4)}, {"three-quarters", Frac(3, 4)}, {"three fourths", Frac(3, 4)}, {"three-fourths", Frac(3, 4)},
	{"two thirds", Frac(2, 3)}, {"two-thirds", Frac(2, 3)}, {"one half", Frac(1, 2)}, {"one-half", Frac(1, 2)}, {"a half", Frac(1, 2)}, {"half", Frac(1, 2)},
	{"one third", Frac(1, 3)}, {"one-third", Frac(1, 3)}, {"a third", Frac(1, 3)}, {"third", Frac(1, 3)},
	{"one quarter", Frac(1, 4)}, {"one-quarter", Frac(1, 4)}, {"a quarter", Frac(1, 4)}, {"quarter", Frac(1, 4)}, {"one fourth", Frac(1, 4)}, {"a fourth", Frac(1, 4)},
	{"an eighth", Frac(1, 8)}, {"one eighth", Frac(1, 8)},
}

// spokenPart reads a part of one in words, before its unit ("half kilo") or before the one
// that it is a part of ("a quarter of a cabbage", "half dozen"). p.at is anywhere when ok is
// false.
func (p *scanner) spokenPart() (n Number, ok bool) {
	for _, part := range partWords {
		if !p.wholeWord(part.words) {
			continue
		}
		p.spaces()
		after := p.at
		for _, next := range [...]string{"a", "an", "of a", "of an", "of one", "dozen"} {
			if p.wholeWord(next) {
				p.at = after
				return part.n, true
			}
		}
		u, _ := unitAt(p.text[p.at:])
		return part.n, u != Each
	}
	return Number{}, false
}

// numberWords are the whole numbers that are read in words.
var numberWords = [...]string{"one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// figure reads a number in figures or a whole one in words, with a part behind it: "two",
// "one and a half". A space or the end follows a word: "five-spice powder" has no number.
func (p *scanner) figure() (n Number, ok bool) {
	if n, ok := p.number(); ok {
		return n, true
	}
	begin := p.at
	for i, w := range numberWords {
		p.at = begin
		if !p.wholeWord(w) || p.at < len(p.text) && p.text[p.at] != ' ' {
			continue
		}
		p.spaces()
		if p.partNext() {
			break // "two thirds butter"
		}
		n, mark := Int(int64(i+1)), p.at
		if p.word("and ") || p.word("& ") {
			if part, ok := p.spokenBehind(); ok {
				return n.Add(part), true
			}
		}
		p.at = mark
		return n, true
	}
	p.at = begin
	return Number{}, false
}

// partNext reports whether a word for a part of one comes next.
func (p *scanner) partNext() bool {
	mark := p.at
	defer func() { p.at = mark }()
	for _, w := range [...]string{"half", "halves", "third", "thirds", "quarter", "quarters", "fourth", "fourths", "eighth", "eighths"} {
		if p.wholeWord(w) {
			return true
		}
	}
	return false
}

// spokenBehind reads a part in words behind "and": "a half", "a quarter".
func (p *scanner) spokenBehind() (Number, bool) {
	for _, part := range spokenParts {
		if p.wholeWord(part.words) {
			return part.n, true
		}
	}
	return Number{}, false
}

// dozens multiplies an amount by what "dozen", "pair" and "brace" count. Before that it
// skips the words between a part and its whole: "½ of a".
func (p *scanner) dozens(a *Amount) {
	mark := p.at
	p.spaces()
	if a.Qty.Cmp(Int(1)) < 0 && a.To.IsZero() {
		for _, words := range [...]string{"of a", "of an", "of one", "a", "an"} {
			if p.wholeWord(words) {
				p.spaces()
				mark = p.at
				break
			}
		}
	}
	n := p.several()
	if n == 1 {
		p.at = mark
		return
	}
	a.Qty, a.To = a.Qty.Mul(Int(n)), a.To.Mul(Int(n))
}

// several skips a word that counts several and returns how many, 1 where there is none.
func (p *scanner) several() int64 {
	for _, word := range [...]string{"dozens", "dozen", "doz.", "doz"} {
		if p.wholeWord(word) {
			return 12
		}
	}
	for _, word := range [...]string{"pairs", "pair", "brace"} {
		if p.wholeWord(word) {
			return 2
		}
	}
	return 1
}

// more adds what follows an amount and is a part of it: the ounces of "2 lb 8 oz", the
// spoons of "1 cup plus 2 tbsp". The sum is in the smallest of the units.
//
// Without a word between them, each part must be of a smaller unit of the same system
// than the part before, and less than one of that: "8 oz 2 lb" and "1 lb 20 oz" are two
// amounts.
func (p *scanner) more(a *Amount) {
	for a.To.IsZero() && (a.Unit.Dim == Mass || a.Unit.Dim == Volume) {
		mark := *p
		p.spaces()
		joined := p.joiner()
		p.spaces()
		n, ok := p.number()
		if part, half := p.halfMore(ok, joined); half {
			a.Qty = a.Qty.Add(part) // "1 cup and a half"
			return
		}
		if !ok {
			*p = mark
			return
		}
		p.spaces()
		u := p.unit(mark.ambiguous)
		less := u.Factor.Cmp(a.Unit.Factor) < 0
		below := less && u.System == a.Unit.System && n.Mul(u.Factor).Cmp(a.Unit.Factor) < 0
		if u.Dim != a.Unit.Dim || n.Sign() <= 0 || !joined && !below {
			*p = mark
			return
		}
		if !less {
			u, n, a.Qty, a.Unit = a.Unit, a.Qty, n, u
		}
		a.Qty, a.Unit = a.Qty.Mul(a.Unit.Factor).Quo(u.Factor).Add(n), u
	}
}

// halfMore reads the "a half" of "1 cup and a half": a part of the unit before it, with none
// of its own. figure says that a figure was read in its place.
func (p *scanner) halfMore(figure, joined bool) (Number, bool) {
	if figure || !joined {
		return Number{}, false
	}
	mark := p.at
	part, ok := p.spokenBehind()
	if after := strings.TrimLeft(p.text[p.at:], " "); ok {
		if u, _ := unitAt(after); u == Each && !strings.HasPrefix(after, "a ") {
			return part, true
		}
	}
	p.at = mark
	return Number{}, false
}

// joiner skips a word or a sign that adds one part of an amount to another.
func (p *scanner) joiner() bool {
	return p.word("plus ") || p.word("and ") || p.word("& ") || p.word("+")
}

// upperEnd reads the upper end of a range whose lower end has its own unit: the 1 lb of
// "8 oz–1 lb". What follows is left alone where it is no such amount.
func (p *scanner) upperEnd(a *Amount) {
	mark := *p
	p.spaces()
	if a.Unit == Each || !a.To.IsZero() || !p.dash() {
		*p = mark
		return
	}
	p.spaces()
	var to Amount
	var ok bool
	if to.Qty, ok = p.number(); ok {
		p.spaces()
		to.Unit = p.unit(mark.ambiguous)
		p.more(&to)
	}
	if !ok || to.Unit.Dim != a.Unit.Dim || a.Unit.Dim == Count && to.Unit != a.Unit || to.Qty.Mul(to.Unit.Factor).Cmp(a.Qty.Mul(a.Unit.Factor)) <= 0 {
		*p = mark
		return
	}
	small := a.Unit
	if to.Unit.Factor.Cmp(small.Factor) < 0 {
		small = to.Unit
	}
	a.Qty, a.To = a.Qty.Mul(a.Unit.Factor).Quo(small.Factor), to.Qty.Mul(to.Unit.Factor).Quo(small.Factor)
	a.Unit = small
}
