package card

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/util"

	"hobside/internal/document"
)

// HTML returns a scaled card as HTML to read or print, without a page around it.
// No text of the card can become mark-up.
func HTML(s *Scaled) string {
	c := s.Card
	w := &page{card: c, scaled: s}
	w.line("<h1>", c.Title, "</h1>")
	w.b.WriteString(document.HTML([]byte(c.Intro)))
	if s.Makes != "" {
		w.line(`<p class="makes">Makes `, s.Makes, "</p>")
	}
	w.front()
	w.formula()
	w.method()
	w.saves()
	w.service()
	w.list("Faults", each(c.Faults, Fault.String))
	w.list("Corrective action", each(c.Actions, Action.String))
	if c.Notes != "" {
		w.b.WriteString(document.HTML([]byte(c.Notes)))
	}
	return w.b.String()
}

// page writes one card as HTML.
type page struct {
	b      strings.Builder
	card   *Card
	scaled *Scaled
}

// text writes words with everything in them escaped that could be mark-up.
func (w *page) text(s string) { w.b.Write(util.EscapeHTML([]byte(s))) }

// line writes words between two tags, and nothing when there are no words.
func (w *page) line(before, s, after string) {
	if s == "" {
		return
	}
	w.b.WriteString(before)
	w.text(s)
	w.b.WriteString(after + "\n")
}

// formula writes the formula as a table, with a row for the name of each group. The cell of
// an item's name says which item it is, 1 + index.
func (w *page) formula() {
	if len(w.card.Items) == 0 {
		return
	}
	w.b.WriteString("<h2>Formula</h2>\n<table>\n<thead><tr><th>Amount</th><th>Item</th><th>Prep</th></tr></thead>\n<tbody>\n")
	group := ""
	for i, it := range w.card.Items {
		if it.Group != group {
			group = it.Group
			w.line(`<tr><th colspan="3">`, group, "</th></tr>")
		}
		w.b.WriteString(`<tr><td class="amount">`)
		amount := &w.scaled.Items[i]
		w.text(amount.Amount)
		if beside := amount.Beside(); beside != "" {
			w.text(" (" + beside + ")")
		}
		w.b.WriteString(`</td><td data-item="` + strconv.Itoa(i+1) + `">`)
		if it.Card != "" {
			w.b.WriteString(`<a href="`)
			w.text(it.Card + ".md")
			w.b.WriteString(`">`)
			w.text(it.Name)
			w.b.WriteString("</a>")
		} else {
			w.text(it.Name)
		}
		w.b.WriteString("</td><td>")
		w.text(it.PrepShown(w.scaled.show))
		w.b.WriteString("</td></tr>\n")
	}
	w.b.WriteString("</tbody>\n</table>\n")
}

// method writes the steps as ordered lists, one for each way, with a heading
// between them. Each list continues the numbers of the list before it.
func (w *page) method() {
	if len(w.card.Steps) == 0 {
		return
	}
	w.b.WriteString("<h2>Method</h2>\n")
	way := -1
	for i := range w.card.Steps {
		s := &w.card.Steps[i]
		if s.Way != way {
			if way >= 0 {
				w.b.WriteString("</ol>\n")
			}
			switch {
			case s.Way > 0:
				w.line("<h3>Way: ", w.card.Ways[s.Way-1].Name, "</h3>")
			case way > 0:
				w.b.WriteString("<h3>Then</h3>\n")
			}
			way = s.Way
			w.b.WriteString(`<ol start="` + strconv.Itoa(s.Number) + `">` + "\n")
		}
		w.b.WriteString("<li>")
		w.runs(i, s)
		w.facts(i)
		w.b.WriteString("</li>\n")
	}
	w.b.WriteString("</ol>\n")
}

// runs writes the text of a step, with its scaled amount before each ingredient.
func (w *page) runs(step int, s *Step) {
	uses := w.scaled.Steps[step].Uses
	for r, run := range s.Text {
		if run.Item == 0 && !run.Strong {
			w.text(run.Text)
			continue
		}
		w.b.WriteString("<strong>")
		if r < len(uses) && uses[r].Amount != "" {
			w.text(uses[r].Amount + " ")
		}
		w.text(run.Text)
		w.b.WriteString("</strong>")
	}
}

// facts writes a step's facts as a list.
func (w *page) facts(step int) {
	facts := w.scaled.Facts(step)
	if len(facts) == 0 {
		return
	}
	w.b.WriteString("\n<ul>\n")
	for _, f := range facts {
		w.line("<li>", f.String(), "</li>")
	}
	w.b.WriteString("</ul>\n")
}

// saves writes the by-products as a list.
func (w *page) saves() {
	if len(w.card.Saves) == 0 {
		return
	}
	w.b.WriteString("<h2>Saves</h2>\n<ul>\n")
	for i, s := range w.card.Saves {
		words := s.Name
		if a := w.scaled.Saves[i]; a != "" {
			words += ": " + a
		}
		for _, k := range s.Keeps {
			words += ", " + k.String()
		}
		w.line("<li>", words, "</li>")
	}
	w.b.WriteString("</ul>\n")
}

// service writes the facts of the pass, and the picture of the plate.
func (w *page) service() {
	w.list("Service", each(w.scaled.Service(), ShownFact.String))
	if pic := w.card.Service.Picture; pic.Source != "" {
		w.b.WriteString(`<p><img src="`)
		w.text(pic.Source)
		w.b.WriteString(`" alt="`)
		w.text(pic.Words)
		w.b.WriteString("\" /></p>\n")
	}
}

// list writes a section that is one list, and nothing when the list is empty.
func (w *page) list(heading string, lines []string) {
	if len(lines) == 0 {
		return
	}
	w.b.WriteString("<h2>" + heading + "</h2>\n<ul>\n")
	for _, words := range lines {
		w.line("<li>", words, "</li>")
	}
	w.b.WriteString("</ul>\n")
}

// each returns the text of every element of a list.
func each[T any](list []T, text func(T) string) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = text(x)
	}
	return out
}
