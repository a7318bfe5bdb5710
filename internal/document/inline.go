package document

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// Text returns the words of a block, or of a piece of one, without mark-up, and
// the offset of the first of them (−1 when there are none).
func (f *File) Text(n ast.Node) (words string, at int) {
	// Most pieces are one run of plain text: no builder needed.
	if c := n.FirstChild(); c != nil && c.NextSibling() == nil {
		if t, ok := c.(*ast.Text); ok {
			return f.Plain(t), t.Segment.Start
		}
	}
	var b strings.Builder
	at = -1
	f.write(&b, &at, n)
	return b.String(), at
}

func (f *File) write(b *strings.Builder, at *int, n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			if *at < 0 {
				*at = c.Segment.Start
			}
			b.WriteString(f.Plain(c))
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.AutoLink:
			b.Write(c.Label(f.body))
		case *ast.RawHTML:
		default:
			f.write(b, at, c)
		}
	}
}

// Plain returns the value of a text node with escapes and entities resolved:
// the parser leaves that to the renderer.
func (f *File) Plain(t *ast.Text) string {
	s := f.segment(t.Segment)
	if t.IsRaw() || strings.IndexByte(s, '\\') < 0 && strings.IndexByte(s, '&') < 0 {
		return s
	}
	return string(util.ResolveNumericReferences(util.ResolveEntityNames(util.UnescapePunctuations([]byte(s)))))
}
