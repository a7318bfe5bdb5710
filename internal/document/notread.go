package document

import (
	"strings"

	"github.com/yuin/goldmark/ast"
)

// OneLine reports whether a list item's words are on one line. Every further line of
// them, and every list or paragraph inside the item, is a problem: of a list of facts
// one line an item is read.
func (f *File) OneLine(item ast.Node) bool {
	first := item.FirstChild()
	if first == nil {
		return true
	}
	lines := first.Lines()
	for i := 1; i < lines.Len(); i++ {
		f.lineNotRead(lines.At(i).Start)
	}
	for n := first; n != nil; n = n.NextSibling() {
		if _, nested := n.(*ast.List); nested || n != first {
			f.NotRead(n)
		}
	}
	return lines.Len() <= 1
}

// NotRead reports each line of a block as a problem. A heading ends a list, so a line
// that nobody reads is nearly always a list item without its dash, or set too far in.
func (f *File) NotRead(block ast.Node) {
	_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Type() == ast.TypeInline {
			return ast.WalkSkipChildren, nil
		}
		for i := 0; entering && i < n.Lines().Len(); i++ {
			f.lineNotRead(n.Lines().At(i).Start)
		}
		return ast.WalkContinue, nil
	})
}

func (f *File) lineNotRead(at int) {
	line, _, _ := strings.Cut(f.text[at:], "\n")
	if line = strings.TrimSpace(line); line != "" {
		f.Err(at, `"`+line+`" is not read here`, "", `begin the line with "- ", as far left as the heading above it`)
	}
}

// Start returns the byte where the first line of text in a block begins, 0 when the
// block has none.
func Start(block ast.Node) int {
	at := 0
	_ = ast.Walk(block, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
		if n.Type() == ast.TypeBlock && n.Lines().Len() > 0 {
			at = n.Lines().At(0).Start
			return ast.WalkStop, nil
		}
		return ast.WalkContinue, nil
	})
	return at
}
