package card

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"hobside/internal/document"
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
				if block.Kind() == ast.KindList {
					p.formulaBlock(block, group) // "- - 500 g onions"
				} else {
					p.listItem(block, group)
				}
				for n := block.NextSibling(); n != nil; n = n.NextSibling() {
					p.formulaBlock(n, group) // lines with more indent than the first
				}
			}
		}
	case *ast.Paragraph, *ast.CodeBlock:
		p.strayBlock(n)
	}
}

// strayBlock adds a problem for a block of the formula that is words for the reader,
// and begins like a heading, a row or an item.
func (p *parser) strayBlock(n ast.Node) {
	words, at := p.Lines(n)
	if first, _ := utf8.DecodeRuneInString(strings.TrimLeft(words, " ")); at >= 0 && !unicode.IsLetter(first) && first != '*' && first != '_' {
		p.Err(at, `"`+document.Clip(words)+`" is not read as a part of the formula`, "", `begin a heading with "### ", an item with "- " and a row with "|", without spaces before it`)
	}
}

// joined adds a problem for a line that Markdown made a part of the item above it: its
// dash has no space behind it, or too many before it.
func (p *parser) joined(block ast.Node) {
	lines := block.Lines()
	for i := 1; i < lines.Len(); i++ {
		at := lines.At(i)
		line := strings.TrimLeft(string(at.Value(p.Body())), " ")
		if first, _ := utf8.DecodeRuneInString(line); line != "" && !unicode.IsLetter(first) && first != '(' {
			p.Err(at.Start, `"`+document.Clip(line)+`" is read as a part of the item above it`, "", `begin the line of an item with "- "`)
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
	p.otherGood(&it, at)
	p.card.Items = append(p.card.Items, it)
	p.items = append(p.items, naming{words: append(words(it.Name), it.takenWord()...), at: at})
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
