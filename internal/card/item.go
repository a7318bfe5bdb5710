package card

import (
	"slices"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// nameItem sets the item's name and the card that its cell or line links to. It returns
// what stood with the name and belongs to the preparation.
func (p *parser) nameItem(it *Item, n ast.Node, name string, at int) (prep []string) {
	l := document.LinkIn(n)
	if l != nil {
		if id, save, ok := document.Target(l); ok && id != "" {
			it.Card, it.Save = id, save
		} else if dest := string(l.Destination); !strings.Contains(dest, ":") {
			p.Err(at, `the link to "`+dest+`" leads to no card`, "", `link to a card's file, like "brown-chicken-stock.md"`)
		}
	}
	if it.Card == "" && (strings.Contains(name, ".md") || strings.Contains(name, "](")) {
		p.brokenLink(name, at)
	}
	p.sizedInside(name, name, at)
	name = longSize(it, strings.TrimSpace(name))
	for _, end := range [...]string{"(optional)", " optional"} {
		if head, ok := strings.CutSuffix(name, end); ok && head != "" {
			name, it.Optional = strings.TrimSpace(head), true
		}
	}
	if l == nil {
		name, prep = p.brackets(it, name, at)
	}
	for _, more := range [...]string{" plus more", " plus extra", " plus some", " + more", " + extra", " and more", " and extra"} {
		if i := strings.Index(name, more); i > 0 {
			name, prep = name[:i], append(prep, name[i+1:])
		}
	}
	bare := name
	if l != nil { // the words of a link may be any
		words, _ := p.Text(l)
		bare = strings.Replace(name, words, strings.Repeat("x", len(words)), 1)
	}
	p.strayAmount(it, bare, at)
	if openBracket(name) || strings.Contains(name, "|") {
		p.Warn(at, `"`+document.Clip(name)+`" has a sign that is not closed`, "", "take the sign out, or close the bracket")
	}
	it.Name = document.Valid(name)
	it.Mix = len(name) > 4 && strings.EqualFold(name[:4], "any ")
	return prep
}

// trim reads the share lost in trimming.
func (p *parser) trim(it *Item, s string, at int) {
	n, ok := document.Percent(s)
	switch {
	case document.IsZero(s):
		p.Err(at, `"`+s+`" lost in trimming is nothing lost`, "", `take it out and write "untrimmed" in its place`)
	case !ok:
		p.Err(at, `"`+s+`" is not a share of trim`, "", `write it like "12 %"`)
	case n.Cmp(quantity.Int(100)) >= 0:
		p.Err(at, `"`+s+`" lost in trimming leaves nothing to cook`, "", `write the share that is thrown away: "12 %" where 88 % is left`)
	default:
		it.Trim = n.Mul(quantity.Frac(1, 100))
	}
}

// brokenLink adds the problem of a link to a card that Markdown does not read as one.
func (p *parser) brokenLink(words string, at int) {
	p.Err(at, `"`+document.Clip(words)+`" has a link that is not whole`, "", `write it like "[Brown chicken stock](brown-chicken-stock.md)"`)
}

// openBracket reports whether a text has a bracket without its other.
func openBracket(s string) bool {
	return strings.Count(s, "(") != strings.Count(s, ")") || strings.Count(s, "[") != strings.Count(s, "]")
}

// each reads what one piece weighs.
func (p *parser) each(it *Item, s string, at int) {
	if a, _, err := p.Measures.ParseAmount(s); err == nil && a.Unit != nil && a.Unit.Dim == quantity.Count {
		p.Err(at, `"each `+document.Clip(s)+`" is no weight`, "", `write what one weighs, like "each 60 g"`)
		return
	}
	a, rest, err := p.Measures.ParseAmount(s)
	switch {
	case err == nil && a.Unit != nil && a.Unit.Dim == quantity.Length:
		p.Err(at, `"each `+document.Clip(s)+`" is a length, and no weight`, "", `write what one weighs, like "each 60 g"`)
		return
	case err == nil && rest == "each":
		s = strings.TrimRight(s[:len(s)-len(rest)], " ") // "150 g each" in the column of that name
	}
	it.Each = p.positive(document.Fact{Word: "each", Value: s, ValueAt: at})
	it.Each.Qty, it.Each.To = it.Each.Need(), quantity.Number{}
}

// prep reads the phrases of the preparation that are facts and keeps the others.
func (p *parser) prep(it *Item, have []string, s string, at int) {
	if s == "" && len(have) == 0 {
		return
	}
	document.SplitList(s, at, func(part string, at int) {
		low := strings.ToLower(part)
		switch {
		case low == "optional" || low == "(optional)":
			it.Optional = true
			return
		case strings.HasPrefix(low, "optional") && !document.IsWordRune(rune(low[len("optional")])): // "optional small leaves"
			it.Optional = true
			if part = strings.TrimLeft(part[len("optional"):], " -–/|.:"); part == "" {
				return
			}
		case low == "to taste" || low == "as needed":
			if it.Amount.Unit == nil {
				it.Amount = quantity.Amount{ToTaste: true}
				return
			}
		case strings.HasPrefix(low, "trim ") && strings.HasSuffix(low, "%"):
			p.trim(it, strings.TrimSpace(part[5:]), at+5)
			return
		case strings.HasPrefix(low, "each ") && len(low) > 5 && document.IsDigit(low[5]):
			p.each(it, strings.TrimSpace(part[5:]), at+5)
			return
		case packed(low) > 0:
			n := packed(low)
			it.Pack = p.positive(document.Fact{Word: "pack", Value: strings.TrimSpace(part[n:]), ValueAt: at + n})
			return
		case strings.HasPrefix(low, "any "):
			it.Mix = true
		case low == "fixed":
			it.Fixed = true // the word stays in the preparation for the reader
		case low == "not eaten":
			it.Uneaten = true // the words stay in the preparation for the reader
		case strings.HasPrefix(low, boughtPhrase):
			p.boughtIn(it, part, at) // the words stay in the preparation for the reader
		case it.Card == "" && strings.Contains(low, ".md"):
			p.brokenLink(part, at)
		case p.restate(it, part, at, false):
			return
		case p.itemInPrep(it, part, at), p.foodInPrep(part, at):
		default:
			p.nearPhrase(part, low, at)
		}
		have = append(have, part)
	})
	it.Prep = document.Valid(strings.Join(have, ", "))
}

// packed returns where the size begins in "pack 500 g", 0 when it is no pack.
func packed(prep string) int {
	for _, word := range [...]string{"pack ", "packs of ", "bag ", "bags of "} {
		if n := len(word); strings.HasPrefix(prep, word) && len(prep) > n && document.IsDigit(prep[n]) {
			return n
		}
	}
	return 0
}

// foodInPrep adds the problem of an amount of a food within the words of the preparation:
// "soaked in 500 ml water". Nobody buys it and it does not grow.
func (p *parser) foodInPrep(part string, at int) bool {
	for i, r := range part {
		if i == 0 || !isFigure(r) || part[i-1] != ' ' {
			continue
		}
		a, name, err := p.Measures.ParseAmount(part[i:])
		if err != nil || !measured(a.Unit) {
			continue
		}
		name, _, _ = strings.Cut(strings.TrimPrefix(name, "of "), " for ")
		if p.isFood(strings.TrimRight(name, ") ")) {
			p.Err(at+i, `"`+document.Clip(part[i:])+`" is read as words, so it is not counted and does not grow`, "", `begin a line of its own with it: "- `+document.Clip(part[i:])+`"`)
			return true
		}
	}
	return false
}

// someOfThem reports whether words behind a figure say what is done with so many of an item:
// the "juiced" of "2 lemons, 1 juiced". "2 days old" says no such thing.
func someOfThem(name string) bool {
	first, _, _ := strings.Cut(strings.ToLower(name), " ")
	return strings.HasSuffix(first, "ed") || slices.Contains([]string{"cut", "left", "whole", "for", "to", "split", "in", "kept"}, first)
}

// itemInPrep adds the problem of a phrase of the preparation that is another item with its
// amount, or more of the same: "2 cups flour, 1 cup sugar", "2 tbsp oil, plus 1 tsp".
func (p *parser) itemInPrep(it *Item, part string, at int) bool {
	typed, more := document.CutAny(part, "plus ", "and ", "+ ", "+", "& ")
	if typed == "" || !isFigure([]rune(typed)[0]) {
		return false
	}
	a, name, err := p.Measures.ParseAmount(typed)
	if err != nil {
		return false
	}
	name = strings.TrimPrefix(name, "of ")
	if _, food := p.card.Foods.Find(name); food {
		p.Err(at, `"`+document.Clip(part)+`" is read as the preparation of the item before it`, "", `begin a line of its own with it: "- `+document.Clip(typed)+`"`)
		return true
	}
	if !more && a.Unit == quantity.Each && it.Amount.Unit != nil && it.Amount.Unit.Dim == quantity.Count && someOfThem(name) {
		p.Warn(at, `"`+document.Clip(part)+`" is read as words, so it stays the same when the amount grows`, "", `part the line in two, like "- 1 `+document.Clip(it.Name)+`, juiced"`)
		return true
	}
	if more && a.Unit != nil && it.Amount.Unit != nil {
		p.Err(at, `"`+document.Clip(part)+`" is read as words, so it is not counted`, "",
			`write all of it in front of the name, like "`+quantity.Written(it.Amount)+" plus "+quantity.Written(a)+" "+document.Clip(it.Name)+`"`)
	}
	return more
}
