package quantity

// spoken reads an amount whose figure is a word: "half a lemon", "a dozen eggs", "a pinch
// of salt". ok is false for "half and half", which is a good.
func (p *scanner) spoken() (n Number, ok bool) {
	mark := p.at
	if p.word("half ") {
		after := p.at
		for _, next := range [...]string{"a", "an", "of a", "of an", "dozen"} {
			if p.wholeWord(next) {
				p.at = after
				return Frac(1, 2), true
			}
		}
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
