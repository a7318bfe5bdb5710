package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// nameItem sets the item's name and the card that its cell or line links to.
func (p *parser) nameItem(it *Item, n ast.Node, name string, at int) {
	if l := document.LinkIn(n); l != nil {
		if id, save, ok := document.Target(l); ok {
			it.Card, it.Save = id, save
		} else if dest := string(l.Destination); !strings.Contains(dest, ":") {
			p.Err(at, `the link to "`+dest+`" leads to no card`, "", `link to a card's file, like "brown-chicken-stock.md"`)
		}
	}
	name = strings.TrimSpace(name)
	if head, ok := strings.CutSuffix(name, "(optional)"); ok {
		name, it.Optional = strings.TrimSpace(head), true
	}
	it.Name = document.Valid(name)
	it.Mix = len(name) > 4 && strings.EqualFold(name[:4], "any ")
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

// each reads what one piece weighs.
func (p *parser) each(it *Item, s string, at int) {
	it.Each = p.positive(document.Fact{Word: "each", Value: s, ValueAt: at})
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
		case low == "not eaten":
			it.Uneaten = true // the words stay in the preparation for the reader
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
