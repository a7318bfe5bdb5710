package main

import (
	"fmt"
	"html"
	"strings"

	"hobside/internal/engine"
)

// factsHTML returns what a card consists of and what it costs as HTML, to stand below the
// card.
func factsHTML(c *engine.CardPage) string {
	if c == nil {
		return ""
	}
	var b strings.Builder
	if n := c.Nutrition; n != nil {
		fmt.Fprintf(&b, "<h2>Nutrition</h2>\n<p>%.0f %% of the weight has a composition (USDA SR28).</p>\n", 100*n.Share)
		if len(n.EU)+len(n.EUPortion) == 0 {
			b.WriteString("<p>Too little is known for a figure, or what it makes has no weight.</p>\n")
		} else {
			nutritionTable(&b, n)
		}
		listHTML(&b, "Without", n.Missing)
		listHTML(&b, "Assumed", n.Assumed)
	}
	if c.Cost != nil {
		fmt.Fprintf(&b, "<h2>Cost</h2>\n<p>%s</p>\n", html.EscapeString(costLine(c.Cost)))
		listHTML(&b, "Without", c.Cost.Missing)
		listHTML(&b, "Assumed", c.Cost.Assumed)
	}
	return b.String()
}

// nutritionTable writes the declaration in 100 g and, where there is one, in a portion.
func nutritionTable(b *strings.Builder, n *engine.NutritionView) {
	lines := n.EU
	if len(lines) == 0 {
		lines = n.EUPortion
	}
	b.WriteString("<table>\n<thead><tr><th></th>")
	if len(n.EU) > 0 {
		b.WriteString("<th>in 100 g</th>")
	}
	if len(n.EUPortion) > 0 {
		b.WriteString("<th>in " + html.EscapeString(n.Portion) + "</th>")
	}
	b.WriteString("</tr></thead>\n<tbody>\n")
	for i, l := range lines {
		b.WriteString("<tr><th>" + html.EscapeString(l.Name) + "</th>")
		if len(n.EU) > 0 {
			b.WriteString("<td>" + html.EscapeString(n.EU[i].Text) + "</td>")
		}
		if len(n.EUPortion) > 0 {
			b.WriteString("<td>" + html.EscapeString(n.EUPortion[i].Text) + "</td>")
		}
		b.WriteString("</tr>\n")
	}
	b.WriteString("</tbody>\n</table>\n")
}

// listHTML writes a list below a word, nothing for an empty one.
func listHTML(b *strings.Builder, word string, list []string) {
	if len(list) == 0 {
		return
	}
	b.WriteString("<p>" + word + ":</p>\n<ul>\n")
	for _, text := range list {
		b.WriteString("<li>" + html.EscapeString(text) + "</li>\n")
	}
	b.WriteString("</ul>\n")
}
