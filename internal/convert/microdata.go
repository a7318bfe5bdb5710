package convert

import (
	"strings"

	"golang.org/x/net/html"
	"golang.org/x/net/html/atom"
)

// microdata returns the recipes that a page marks up with microdata or RDFa, in the shape
// of JSON-LD.
func microdata(root *html.Node) []any {
	var out []any
	var walk func(n *html.Node, depth int)
	walk = func(n *html.Node, depth int) {
		if depth > maxNodes {
			return
		}
		if n.Type == html.ElementNode && typeOf(n) == "Recipe" {
			out = append(out, thing(n, 0))
			return
		}
		for c := n.FirstChild; c != nil; c = c.NextSibling {
			walk(c, depth+1)
		}
	}
	walk(root, 0)
	return out
}

// typeOf returns the schema.org type that an element has, "" when it has none.
func typeOf(n *html.Node) string {
	kind := attr(n, "itemtype")
	if kind == "" {
		kind = attr(n, "typeof")
	}
	first := strings.Fields(kind + " ")
	if len(first) == 0 {
		return ""
	}
	return plainKey(first[0])
}

// thing reads an element with a type of its own and the properties within it.
func thing(n *html.Node, depth int) map[string]any {
	m := map[string]any{"@type": typeOf(n)}
	if depth < maxDepth {
		properties(n, m, depth)
	}
	return m
}

func properties(n *html.Node, m map[string]any, depth int) {
	if depth > maxNodes {
		return
	}
	for c := n.FirstChild; c != nil; c = c.NextSibling {
		if c.Type != html.ElementNode || c.DataAtom == atom.Script || c.DataAtom == atom.Style {
			continue
		}
		names := strings.Fields(attr(c, "itemprop") + " " + attr(c, "property"))
		own := has(c, "itemscope") || has(c, "typeof")
		for _, name := range names {
			name = plainKey(name)
			var v any
			if own {
				v = thing(c, depth+1)
			} else {
				v = valueOf(c, name)
			}
			add(m, name, v)
		}
		if !own && !(len(names) > 0 && (names[0] == "recipeInstructions" || names[0] == "recipeIngredient")) || own && len(names) == 0 {
			properties(c, m, depth+1)
		}
	}
}

// add adds a value of a property that may have several.
func add(m map[string]any, name string, v any) {
	switch have := m[name].(type) {
	case nil:
		m[name] = v
	case []any:
		m[name] = append(have, v)
	default:
		m[name] = []any{have, v}
	}
}

// valueOf returns the value of a property: what a machine is given, else the words.
func valueOf(n *html.Node, name string) any {
	for _, key := range [...]string{"content", "datetime"} {
		if has(n, key) {
			return attr(n, key)
		}
	}
	switch n.DataAtom {
	case atom.Img:
		return attr(n, "src")
	case atom.A, atom.Link:
		if name == "url" || n.DataAtom == atom.Link {
			return attr(n, "href")
		}
	}
	if name == "recipeInstructions" {
		return instructions(n)
	}
	return words(n)
}

// instructions returns the steps within an element: its list, its paragraphs, or its words.
func instructions(n *html.Node) any {
	var list []any
	for _, l := range visible(n, true) {
		if l.blank {
			continue
		}
		if l.level > 0 {
			list = append(list, map[string]any{"@type": "HowToSection", "name": l.words})
			continue
		}
		list = append(list, l.words)
	}
	return list
}
