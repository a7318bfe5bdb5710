package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// savesBlock reads one block below "## Saves": "- chicken fat: 160 g, 5 d chilled".
func (p *parser) savesBlock(n ast.Node) {
	l, ok := n.(*ast.List)
	if !ok {
		return
	}
	for item := l.FirstChild(); item != nil; item = item.NextSibling() {
		f, ok := p.ItemFact(item)
		if !ok {
			continue
		}
		name := f.Word
		if name == "" {
			name = strings.ToLower(f.Value)
		}
		by := ByProduct{Slug: document.Slug(name), Name: document.Valid(name), Pos: p.Place(f.At)}
		if by.Slug == "" {
			p.Err(f.At, "a by-product without a name", "", `write it like "- chicken fat: 160 g, 5 d chilled"`)
			continue
		}
		if !p.room(len(p.card.Saves), maxSaves, "by-products", f.At) {
			return
		}
		for _, other := range p.card.Saves {
			if other.Slug == by.Slug {
				p.Err(f.At, `"`+name+`" is saved twice`, "", "write one line with the whole amount")
			}
		}
		if f.Word == "" {
			p.Err(f.At, `"`+name+`" has no amount`, "", "write after a colon how much the formula gives: \""+name+`: 160 g"`)
		} else {
			p.saved(&by, f)
		}
		p.card.Saves = append(p.card.Saves, by)
	}
}

// saved reads amount and keeping times of a by-product.
func (p *parser) saved(by *ByProduct, f document.Fact) {
	first := true
	f.Split(func(part string, at int) {
		part = strings.TrimSuffix(part, ".")
		if first {
			first = false
			by.Amount = p.positive(document.Fact{Word: by.Name, Value: part, ValueAt: at})
			return
		}
		by.Keeps = append(by.Keeps, p.keeps(document.Fact{Word: by.Name, Value: part, ValueAt: at})...)
	})
	if first {
		p.Err(f.At, `"`+by.Name+`" has no amount`, "", "write how much the formula gives")
	}
	if by.Amount.ToTaste {
		by.Amount = quantity.Amount{}
	}
}
