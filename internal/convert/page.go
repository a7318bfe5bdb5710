package convert

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// A page is a web page taken apart.
type page struct {
	root   *html.Node
	data   []any  // the JSON-LD values
	broken error  // why one of them could not be read, nil when all could
	title  string // of its head
	signIn bool   // it has a field for a password
}

// maxNodes is how deep a page may be nested: deeper ones are no pages of people.
const maxNodes = 500

// looksLikePage reports whether a text is HTML.
func looksLikePage(s string) bool {
	head := strings.ToLower(s[:min(len(s), 4000)])
	for _, tag := range [...]string{"<!doctype html", "<html", "<head", "<body", "<script", "itemscope", "<div", "<article", "<ul", "<table", "<p>", "<h1", "<h2", "<li"} {
		if strings.Contains(head, tag) {
			return true
		}
	}
	return false
}

// parsePage reads HTML. It never fails: HTML has no errors.
func parsePage(s string) *page {
	p := &page{}
	root, err := html.Parse(strings.NewReader(s))
	if err != nil {
		root = &html.Node{Type: html.DocumentNode}
	}
	p.root = root
	p.look(root, 0)
	return p
}

// look finds the page's data, title and sign-in form.
func (p *page) look(n *html.Node, depth int) {
	if depth > maxNodes {
		return
	}
	if n.Type == html.ElementNode {
		switch n.DataAtom {
		case atom.Script:
			if kind := strings.ToLower(attr(n, "type")); strings.HasPrefix(kind, "application/ld+json") && n.FirstChild != nil {
				v, err := parseJSON(n.FirstChild.Data)
				if err != nil {
					p.broken = err
				} else {
					p.data = append(p.data, v)
				}
			}
		case atom.Title:
			if p.title == "" && n.FirstChild != nil {
				p.title = squeeze(n.FirstChild.Data)
			}
		case atom.Input:
			p.signIn = p.signIn || strings.EqualFold(attr(n, "type"), "password")
		}
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		p.look(c, depth+1)
	}
}

// attr returns an attribute of an element, "" when it has none.
func attr(n *html.Node, name string) string {
	for _, a := range n.Attr {
		if a.Key == name {
			return a.Val
		}
	}
	return ""
}

// has reports whether an element has an attribute.
func has(n *html.Node, name string) bool {
	for _, a := range n.Attr {
		if a.Key == name {
			return true
		}
	}
	return false
}

// unseen are elements whose words nobody reads, or that are around a recipe and not of it.
var unseen = map[atom.Atom]bool{
	atom.Script: true, atom.Style: true, atom.Noscript: true, atom.Template: true, atom.Head: true, atom.Nav: true, atom.Header: true, atom.Footer: true, atom.Aside: true,
	atom.Form: true, atom.Button: true, atom.Select: true, atom.Svg: true, atom.Iframe: true, atom.Object: true, atom.Textarea: true, atom.Video: true, atom.Audio: true,
}

// blocks are elements that stand on lines of their own.
var blocks = map[atom.Atom]bool{
	atom.P: true, atom.Div: true, atom.Section: true, atom.Article: true, atom.Main: true, atom.Ul: true, atom.Ol: true, atom.Table: true, atom.Tbody: true, atom.Thead: true, atom.Blockquote: true,
	atom.Dl: true, atom.Dt: true, atom.Dd: true, atom.Pre: true, atom.Figure: true, atom.Figcaption: true, atom.Body: true, atom.Fieldset: true, atom.Details: true, atom.Summary: true, atom.Center: true, atom.Address: true, atom.Hr: true,
}

// A sheet collects the visible lines of a page.
type sheet struct {
	out []line
	now strings.Builder
	as  line // what the line under way is
	all bool // also what is around a recipe
}

// visible returns the lines of a piece of a page that a person reads. A header that has no
// main part beside it counts too.
func visible(n *html.Node, all bool) []line {
	s := &sheet{all: all}
	s.walk(n, 0)
	s.end()
	return s.out
}

// end ends the line under way.
func (s *sheet) end() {
	words := squeeze(s.now.String())
	s.now.Reset()
	l := s.as
	s.as = line{}
	if words == "" {
		return
	}
	l.words, l.raw = words, words
	if !l.number && !l.bullet && l.level == 0 {
		if m := stepNumber.FindStringSubmatch(words); m != nil && m[2] != "" {
			l.number, l.words = true, m[2]
		} else if m := numbered.FindStringSubmatch(words); m != nil {
			l.number, l.words = true, m[2]
		} else if m := bulleted.FindStringSubmatch(words); m != nil {
			l.bullet, l.words = true, m[1]
		}
	}
	s.out = append(s.out, l)
}

// blank adds an empty line.
func (s *sheet) blank() {
	s.end()
	if n := len(s.out); n > 0 && !s.out[n-1].blank {
		s.out = append(s.out, line{blank: true})
	}
}

func (s *sheet) walk(n *html.Node, depth int) {
	if depth > maxNodes {
		return
	}
	switch n.Type {
	case html.TextNode:
		s.now.WriteString(n.Data)
		return
	case html.ElementNode:
	default:
		s.inside(n, depth)
		return
	}
	if unseen[n.DataAtom] && !(s.all && (n.DataAtom == atom.Header || n.DataAtom == atom.Form || n.DataAtom == atom.Aside)) || has(n, "hidden") {
		return
	}
	switch {
	case n.DataAtom == atom.Br:
		as := s.as
		as.number, as.bullet = false, false
		s.end()
		if as.level > 0 {
			s.as = as
		}
	case len(n.Data) == 2 && n.Data[0] == 'h' && n.Data[1] >= '1' && n.Data[1] <= '6':
		s.blank()
		s.as = line{level: int(n.Data[1] - '0')}
		s.inside(n, depth)
		s.blank()
	case n.DataAtom == atom.Li:
		s.end()
		ordered := n.Parent != nil && n.Parent.DataAtom == atom.Ol
		s.as = line{number: ordered, bullet: !ordered}
		s.item(n, depth)
		s.end()
	case n.DataAtom == atom.Tr:
		s.end()
		s.row(n)
	case blocks[n.DataAtom]:
		s.blank()
		s.inside(n, depth)
		s.blank()
	default:
		s.inside(n, depth)
	}
}

// item reads a list item: paragraphs in it are words of the item, lists in it are their own.
func (s *sheet) item(n *html.Node, depth int) {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == html.ElementNode && (c.DataAtom == atom.P || c.DataAtom == atom.Div || c.DataAtom == atom.Label || c.DataAtom == atom.Br) {
			s.now.WriteByte(' ')
			s.item(c, depth+1)
			s.now.WriteByte(' ')
			continue
		}
		s.walk(c, depth+1)
	}
}

func (s *sheet) inside(n *html.Node, depth int) {
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		s.walk(c, depth+1)
	}
}

// row reads a row of a table.
func (s *sheet) row(n *html.Node) {
	l := line{}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type == html.ElementNode && (c.DataAtom == atom.Td || c.DataAtom == atom.Th) {
			l.cells = append(l.cells, words(c))
		}
	}
	l.words = squeeze(strings.Join(l.cells, " "))
	l.raw = l.words
	if l.words != "" {
		s.out = append(s.out, l)
	}
}

// words returns the visible words of a piece of a page on one line.
func words(n *html.Node) string {
	var parts []string
	for _, l := range visible(n, true) {
		if !l.blank {
			parts = append(parts, l.words)
		}
	}
	return strings.Join(parts, " ")
}

// htmlText returns a text that may have tags and entities in it as lines of plain text.
func htmlText(s string) string {
	if !strings.ContainsAny(s, "<&") {
		return s
	}
	if !strings.Contains(s, "<") {
		return html.UnescapeString(s)
	}
	n, err := html.Parse(strings.NewReader(strings.ReplaceAll(s, "\n", "<br>")))
	if err != nil {
		return s
	}
	var out []string
	for _, l := range visible(n, true) {
		out = append(out, l.words)
	}
	return strings.TrimSpace(strings.Join(out, "\n"))
}
