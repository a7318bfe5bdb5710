package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// Text returns the words of a block or of a piece of one, without mark-up, and
// where the first of them stands (−1 when there are none).
func (d *Doc) Text(n ast.Node) (words string, at int) {
	// Most pieces are one run of plain text: no builder needed.
	if c := n.FirstChild(); c != nil && c.NextSibling() == nil {
		if t, ok := c.(*ast.Text); ok {
			return d.plain(t), t.Segment.Start
		}
	}
	var b strings.Builder
	at = -1
	d.write(&b, &at, n)
	return b.String(), at
}

func (d *Doc) write(b *strings.Builder, at *int, n ast.Node) {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		switch c := c.(type) {
		case *ast.Text:
			if *at < 0 {
				*at = c.Segment.Start
			}
			b.WriteString(d.plain(c))
			if c.SoftLineBreak() || c.HardLineBreak() {
				b.WriteByte(' ')
			}
		case *ast.AutoLink:
			b.Write(c.Label(d.body))
		case *ast.RawHTML:
		default:
			d.write(b, at, c)
		}
	}
}

// plain is a text node's value with escapes and entities resolved, which the
// parser leaves for whoever shows it.
func (d *Doc) plain(t *ast.Text) string {
	s := d.words(t.Segment)
	if t.IsRaw() || strings.IndexByte(s, '\\') < 0 && strings.IndexByte(s, '&') < 0 {
		return s
	}
	return string(util.ResolveNumericReferences(util.ResolveEntityNames(util.UnescapePunctuations([]byte(s)))))
}

// valid is a text to show: what is not UTF-8 in it becomes a sign that says so.
func valid(s string) string { return strings.ToValidUTF8(s, "\uFFFD") }

// LinkTo returns the first link in a piece of text.
func LinkTo(n ast.Node) *ast.Link {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if l, ok := c.(*ast.Link); ok {
			return l
		}
		if e, ok := c.(*ast.Emphasis); ok {
			if l := LinkTo(e); l != nil {
				return l
			}
		}
	}
	return nil
}

// Target takes a link to another card apart: its ID, and the by-product after
// the "#". ok is false for a link that leads elsewhere.
func Target(l *ast.Link) (id, save string, ok bool) {
	dest := string(l.Destination)
	if strings.Contains(dest, ":") {
		return "", "", false // another site's
	}
	path, save, _ := strings.Cut(dest, "#")
	if !strings.HasSuffix(path, ".md") {
		return "", "", false
	}
	if strings.IndexByte(path, '%') >= 0 {
		path = string(util.URLEscape([]byte(path), true))
		path = strings.ReplaceAll(path, "%20", " ")
	}
	if strings.IndexByte(path, ':') >= 0 {
		return "", "", false // a scheme written as an entity, "javascript&colon;"
	}
	return ID(path), Slug(save), true
}

// Slug is a name as links write it: lower case, hyphens for everything that is
// neither letter nor figure.
func Slug(name string) string {
	plain := true
	for i := range len(name) {
		c := name[i]
		if (c < 'a' || c > 'z') && (c < '0' || c > '9') && (c != '-' || i == 0 || name[i-1] == '-') {
			plain = false
			break
		}
	}
	if plain {
		return strings.TrimRight(name, "-")
	}
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		if !isWordRune(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
	}
	return b.String()
}
