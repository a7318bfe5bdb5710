package card

import (
	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"
)

// formulaBlock reads one block below "## Formula": a table or a list. Other
// blocks are words for the reader.
func (p *parser) formulaBlock(n ast.Node, group string) {
	switch n := n.(type) {
	case *east.Table:
		p.formulaTable(n, group)
	case *ast.List:
		p.expect(n.ChildCount())
		for item := n.FirstChild(); item != nil; item = item.NextSibling() {
			if block := item.FirstChild(); block != nil {
				p.listItem(block, group)
			}
		}
	}
}

// expect allocates the items at once: they are large to move.
func (p *parser) expect(n int) {
	if n = min(n, maxItems); p.card.Items == nil && n > 0 {
		p.card.Items, p.items = make([]Item, 0, n), make([]naming, 0, n)
	}
}

// addItem appends an item to the formula.
func (p *parser) addItem(it Item, at int) {
	if it.Amount.Unit == nil && !it.Amount.ToTaste && it.Percent.IsZero() && !p.amountless && !p.faulty(it.Pos.Line) {
		p.Warn(at, `"`+it.Name+`" has no amount`, "", `write one, or "to taste" if that is meant`)
	}
	if !p.room(len(p.card.Items), maxItems, "items", at) {
		return
	}
	p.card.Items = append(p.card.Items, it)
	p.items = append(p.items, naming{words: words(it.Name), at: at})
}

// faulty reports whether the last problem is on this line: one is enough.
func (p *parser) faulty(line int) bool {
	return len(p.Problems) > 0 && p.Problems[len(p.Problems)-1].Line == line
}

// faultyLine reports whether any problem is on this line.
func (p *parser) faultyLine(line int) bool {
	for _, f := range p.Problems {
		if f.Line == line {
			return true
		}
	}
	return false
}
