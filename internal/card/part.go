package card

import (
	"slices"
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// vague are words in bold before an item that give no figure: "a little butter".
var vague = []string{"a little ", "little ", "a bit of ", "a bit ", "some ", "some more ", "a few ", "few ", "several ", "most of ", "much of ", "plenty of ", "a touch of ", "enough ", "extra ", "more ", "up to ", "all but ", "a lot of "}

// part works out the part of an item that a bold piece names, when the item is known: it
// completes use, whose Part is as typed. typed is the piece without "rest of" and the like.
func (p *parser) part(b *bold, use *Run, typed string, it *Item) {
	own := it.Amount.Unit
	part := &use.Part
	switch {
	case own == nil: // "salt, to taste": any words will do
	case part.Unit == quantity.Each && part.Qty.Cmp(quantity.Int(1)) < 0 && own.Dim != quantity.Count: // "1/3 cream"
		use.Share, *part = part.Qty, quantity.Amount{}
	case part.Unit == quantity.Each && own != quantity.Each && own.Dim == quantity.Count && lastWordIs(use.Text, own.Name): // "2 garlic cloves"
		part.Unit = own
	case part.Unit == quantity.Each && own.Dim != quantity.Count && p.slippedUnit(b, use.Text):
	case part.Unit == nil && use.Share.IsZero() && p.vagueUse(b, typed):
	case part.Unit == nil && own.Dim == quantity.Count && it.Amount.Qty.Cmp(quantity.Int(1)) > 0 && !use.Rest && use.Share.IsZero() && oneOf(typed): // "a shallot"
		*part = quantity.Amount{Qty: quantity.Int(1), Unit: own}
		_, use.Text, _ = strings.Cut(use.Text, " ")
	case strings.ContainsFunc(use.Text, isFigure) && !strings.ContainsFunc(it.Name, isFigure):
		p.Err(b.at, `"`+document.Clip(b.words)+`" has a figure that is not read`, "", `write it in front of the name, like "100 g butter", or outside the stars`)
	}
}

// vagueUse reports whether a bold piece begins with vague words, and adds its problem.
func (p *parser) vagueUse(b *bold, typed string) bool {
	low := strings.ToLower(typed)
	for _, words := range vague {
		if strings.HasPrefix(low, words) {
			p.Warn(b.at, `"`+document.Clip(b.words)+`" does not say how much: it takes all that is left`, "", `write "20 g butter" or "half the butter", or take the stars out`)
			return true
		}
	}
	return false
}

// slippedUnit reports whether a name begins with a misspelt unit, and adds its problem:
// "100 gramms butter".
func (p *parser) slippedUnit(b *bold, name string) bool {
	first, _, more := strings.Cut(name, " ")
	hint := quantity.SuggestUnit(first)
	if u, _ := quantity.LookupUnit(hint); !more || !measured(u) {
		return false
	}
	p.Err(b.at, `"`+document.Clip(first)+`" is no unit, so its figure counts pieces`, hint, "")
	return true
}

// lastWordIs reports whether a name ends with a word in the singular or plural.
func lastWordIs(name, word string) bool {
	list := words(name)
	return len(list) > 1 && list[len(list)-1] == singular(word)
}

// oneOf reports whether words name one of several: "a shallot".
func oneOf(s string) bool {
	return document.HasPrefixFold(s, "a ") || document.HasPrefixFold(s, "an ") || document.HasPrefixFold(s, "another ")
}

// amountLast moves an amount from behind a name to its front: "butter (100 g)" and
// "butter, 100 g" are "100 g butter".
func (p *parser) amountLast(name string) string {
	head, tail, ok := strings.Cut(name, "(")
	if ok {
		tail, ok = strings.CutSuffix(strings.TrimSpace(tail), ")")
	} else {
		head, tail, ok = strings.Cut(name, ",")
	}
	if !ok || document.BeginsWithAmount(head) {
		return name
	}
	a, rest, err := p.Measures.ParseAmount(strings.TrimSpace(tail))
	if err != nil || rest != "" || a.Unit == nil {
		return name
	}
	return strings.TrimSpace(tail) + " " + strings.TrimSpace(head)
}

// ofWhat turns "yolks of 3 eggs" and "juice of the lemon" into "3 egg yolks" and "lemon
// juice", as the formula's items are named.
func ofWhat(name string) string {
	taken, whole, ok := cutFold(name, " of ")
	list := words(taken)
	if !ok || len(list) == 0 {
		return name
	}
	last := list[len(list)-1]
	whole = strings.TrimPrefix(whole, "the ")
	switch {
	case last == "yolk" || last == "white":
		if at := strings.LastIndexByte(whole, ' ') + 1; words(whole[at:]) != nil {
			whole = whole[:at] + strings.Join(words(whole[at:]), "")
		}
		return whole + " " + last + "s"
	case saysTaken(taken) && len(list) == 1:
		return whole + " " + last
	}
	return name
}

// sideOf returns which part of an egg a name ends with, "yolk" or "white", and the name with
// the egg in its place: "egg yolks" is of "egg", and so is "yolks".
func sideOf(name []string) (side string, whole []string) {
	n := len(name)
	if n == 0 || name[n-1] != "yolk" && name[n-1] != "white" {
		return "", name
	}
	whole = slices.Clone(name[:n-1])
	if n == 1 || whole[n-2] != "egg" {
		whole = append(whole, "egg")
	}
	return name[n-1], whole
}

// fits reports whether words name an item of the formula.
func (p *parser) fits(name []string) bool {
	return slices.ContainsFunc(p.items, func(n naming) bool { f := fit(name, n.words); return f != none && f != around })
}
