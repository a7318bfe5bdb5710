package main

import (
	"fmt"
	"html"
	"strings"

	"hobside/internal/engine"
)

// factsHTML returns what something consists of and what it costs as HTML, to stand below a
// heading; level is that of its own headings. Nil parts are left out.
func factsHTML(n *engine.NutritionView, cost *engine.CostView, level int) string {
	var b strings.Builder
	if n != nil {
		fmt.Fprintf(&b, "<h%d>Nutrition</h%d>\n<p>%.0f %% of the weight has a composition (USDA SR28).</p>\n", level, level, 100*n.Share)
		if len(n.EU)+len(n.EUPortion) == 0 {
			b.WriteString("<p>Too little is known for a figure, or what it makes has no weight.</p>\n")
		} else {
			nutritionTable(&b, n)
		}
		listHTML(&b, "Without", n.Missing)
		listHTML(&b, "Assumed", n.Assumed)
	}
	if cost != nil {
		fmt.Fprintf(&b, "<h%d>Cost</h%d>\n<p>%s</p>\n", level, level, html.EscapeString(costLine(cost)))
		listHTML(&b, "Without", cost.Missing)
		listHTML(&b, "Assumed", cost.Assumed)
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
