package document

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/util"
)

// LinkIn returns the first link in a piece of text, nil when there is none.
func LinkIn(n ast.Node) *ast.Link {
	for c := n.FirstChild(); c != nil; c = c.NextSibling() {
		if l, ok := c.(*ast.Link); ok {
			return l
		}
		if e, ok := c.(*ast.Emphasis); ok {
			if l := LinkIn(e); l != nil {
				return l
			}
		}
	}
	return nil
}

// Target returns what a link to another file names: the file's [ID], and the
// fragment after the "#" as a [Slug]. ok is false for a link that leads
// elsewhere.
func Target(l *ast.Link) (id, fragment string, ok bool) {
	dest := string(l.Destination)
	if strings.Contains(dest, ":") {
		return "", "", false // another site's
	}
	path, fragment, _ := strings.Cut(dest, "#")
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
	return ID(path), Slug(fragment), true
}

// Slug returns a name as links write it: lower case, with a hyphen for every
// run of characters that are neither letters nor digits.
func Slug(name string) string {
	plain := true
	for i := range len(name) {
		c := name[i]
		if (c < 'a' || c > 'z') && !IsDigit(c) && (c != '-' || i == 0 || name[i-1] == '-') {
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
		if !IsWordRune(r) {
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
