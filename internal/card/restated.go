package card

import (
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// A restated is an amount that a line gives a second time, beside its first: "(28 oz)",
// "about 6 oz each", "12 oz in all".
type restated struct {
	amount quantity.Amount // a mass or a volume
	each   bool            // it says that one has so much
	all    bool            // it says that all have
}

// readRestated reads an amount that is said again, with or without brackets. ok is false
// for other words.
func (p *parser) readRestated(text string) (r restated, ok bool) {
	text = strings.TrimSpace(text)
	if inner, open := strings.CutPrefix(text, "("); open && strings.HasSuffix(inner, ")") {
		text = strings.TrimSpace(inner[:len(inner)-1])
	}
	for _, before := range [...]string{"each ", "total ", "in all "} {
		if document.HasPrefixFold(text, before) {
			r.each, r.all = before == "each ", before != "each "
			text = strings.TrimSpace(text[len(before):])
			break
		}
	}
	if _, degrees := document.Temperature(text); degrees || !document.BeginsWithAmount(text) {
		return r, false
	}
	a, after, err := p.Measures.ParseAmount(text)
	if err != nil || !measured(a.Unit) {
		return r, false
	}
	switch strings.ToLower(strings.TrimRight(after, ".")) {
	case "":
	case "each", "apiece", "a piece", "per piece":
		r.each = true
	case "total", "in total", "in all", "altogether", "all together", "for all":
		r.all = true
	default:
		return r, false
	}
	r.amount = quantity.Amount{Qty: a.Need(), Unit: a.Unit}
	return r, !(r.each && r.all)
}

// measured reports whether a unit is one of mass or volume.
func measured(u *quantity.Unit) bool {
	return u != nil && (u.Dim == quantity.Mass || u.Dim == quantity.Volume)
}

// restate reads an amount that the line says again: what one weighs, or what a cup of it
// does. typed begins at offset at. direct says that it comes right after the figure,
// where it is the size of one: "4 (6-oz) fillets". ok is false when typed is no such
// amount; where it fits no reading, restate adds a problem.
func (p *parser) restate(it *Item, typed string, at int, direct bool) (ok bool) {
	r, ok := p.readRestated(typed)
	u := it.Amount.Unit
	if !ok || u == nil {
		return false
	}
	if u == quantity.Each && r.amount.Unit.Dim == quantity.Volume && !direct {
		return false // "1 onion, about 1 cup": how much it is when chopped
	}
	switch {
	case u.Dim == quantity.Count:
		p.restateOne(it, r, typed, at, direct)
	case r.each:
		p.weighsEach(it, r.amount, typed, at)
	case u.Dim == r.amount.Unit.Dim:
		if !sameAgain(it.Amount, r.amount) && !p.sameByOther(it.Amount, typed) {
			p.Err(at, `"`+quantity.Written(it.Amount)+`" and "`+document.Clip(typed)+`" are not the same`, "", "correct one of them, or take it out")
		}
	default: // "2 cups (450 g) sugar"
		mass, volume := it.Amount.Need().Mul(u.Factor), r.amount.Qty.Mul(r.amount.Unit.Factor)
		if u.Dim == quantity.Volume {
			mass, volume = volume, mass
		}
		it.Density = mass.Quo(volume)
	}
	return true
}

// sameAgain reports whether a second amount is the first one in another unit. Cookery rounds
// such pairs: the widest in use are 25 g/1 oz, 50 g/2 oz and 75 g/3 oz, where the ounces are
// 13.4 % more (common practice, no source). So up to 14 % of the first is the same.
func sameAgain(first, second quantity.Amount) bool {
	one, two := first.Need().Mul(first.Unit.Factor), second.Need().Mul(second.Unit.Factor)
	off := one.Sub(two)
	return off.Mul(off).Cmp(one.Mul(one).Mul(quantity.Frac(14*14, 100*100))) <= 0
}

// sameByOther reports whether a second amount is the first one by the measures of the other
// country: "600 ml/1 pint" on a card that does not say that its pints are British. The first
// amount is the one that counts.
func (p *parser) sameByOther(first quantity.Amount, typed string) bool {
	if first.Unit.System != quantity.Metric {
		return false
	}
	other := quantity.UKMeasures
	if p.Measures == other {
		other = quantity.USMeasures
	}
	second, rest, err := other.ParseAmount(strings.Trim(typed, "() "))
	return err == nil && rest == "" && second.Unit.Dim == first.Unit.Dim && sameAgain(first, second)
}

// restateOne reads an amount that is said again of what is counted.
func (p *parser) restateOne(it *Item, r restated, typed string, at int, direct bool) {
	count := it.Amount.Qty
	single := it.Amount.To.IsZero() && count.Cmp(quantity.Int(1)) == 0
	switch {
	case r.each, single, direct && !r.all:
		p.weighsEach(it, r.amount, typed, at)
	case r.all && it.Amount.To.IsZero():
		p.weighsEach(it, r.amount.Scale(quantity.Int(1).Quo(count)), typed, at)
	default:
		size := quantity.Written(r.amount)
		p.Err(at, `"`+document.Clip(typed)+`" may be the weight of one or of all`, "", `write "each `+size+`", or "`+size+` in all" behind one figure`)
	}
}

// weighsEach sets what one weighs. A second figure that is another is a problem.
func (p *parser) weighsEach(it *Item, each quantity.Amount, typed string, at int) {
	if had := it.Each; had.Unit != nil {
		if n, ok := quantity.Convert(each.Qty, each.Unit, had.Unit); !ok || n.Cmp(had.Qty) != 0 {
			p.Err(at, `"`+document.Clip(typed)+`" says twice what one of them weighs`, "", "say it once")
			return
		}
	}
	it.Each = each
}

// bracket returns where the first bracket of s begins and ends, with its signs; ok is
// false where there is none.
func bracket(s string) (from, to int, ok bool) {
	from = strings.IndexByte(s, '(')
	if from < 0 {
		return 0, 0, false
	}
	n := strings.IndexByte(s[from:], ')')
	return from, from + n + 1, n > 0
}

// brackets reads the amounts in the brackets of a name that begins at offset at, and takes
// them out of it. Brackets with other figures go to the preparation, because a name has
// none; those with words alone stay.
func (p *parser) brackets(it *Item, name string, at int) (_ string, prep []string) {
	for seen := 0; ; {
		from, to, ok := bracket(name[seen:])
		if !ok {
			return name, prep
		}
		from, to = from+seen, to+seen
		typed := name[from:to]
		if !strings.ContainsFunc(typed, isFigure) {
			seen = to
			continue
		}
		if !p.restate(it, typed, at+from, false) {
			prep = append(prep, typed)
			p.unreadAmount(it, typed, at+from)
		}
		name = strings.TrimSpace(strings.TrimRight(name[:from], " ") + name[to:])
	}
}

// unreadAmount adds a problem for a bracket with a mass or a volume that is not read.
func (p *parser) unreadAmount(it *Item, typed string, at int) {
	for i := range typed {
		if !document.IsDigit(typed[i]) || i > 0 && document.IsDigit(typed[i-1]) {
			continue
		}
		a, rest, err := quantity.ParseAmount(typed[i:])
		rest = strings.Trim(rest, " .)")
		switch {
		case err != nil || measured(a.Unit):
			p.Warn(at, `"`+document.Clip(typed)+`" is read as words`, "", `write what one weighs as "each 60 g" behind a comma, or take the figure out`)
		case a.Unit == quantity.Each && !p.isFood(rest) && !(rest == "" && measured(it.Amount.Unit) && document.HasPrefixFold(strings.TrimPrefix(typed, "("), "about ")), a.Unit.Dim == quantity.Length, a.Unit.Dim == quantity.Count && a.Unit != quantity.Each && rest != "" && !p.isFood(rest):
			continue
		default: // "10 g gelatine (5 leaves)"
			p.Warn(at, `"`+document.Clip(typed)+`" is read as words, so it stays the same when the amount grows`, "", `write one amount, like "5 leaves gelatine, each 2 g", or take the figure out`)
		}
		return
	}
}
