package card

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/util"

	"hobside/internal/quantity"

	"hobside/internal/document"
)

// Shown is what a page writes where a card has amounts: the caller scales,
// rounds and chooses units.
type Shown struct {
	Makes string
	Items []string   // the amount of each item, in order of Card.Items
	Uses  [][]string // the amount of each run of each step, "" for none
	Until []string   // of each step that ends at an amount, that amount; else ""
	Saves []string   // the amount of each by-product
}

// HTML renders a card as a page to read, with the amounts given.
func HTML(c *Card, shown Shown) string {
	w := &page{card: c, shown: shown}
	w.line("<h1>", c.Title, "</h1>")
	w.b.WriteString(document.HTML([]byte(c.Intro)))
	if shown.Makes != "" {
		w.line(`<p class="makes">Makes `, shown.Makes, "</p>")
	}
	w.formula()
	w.method()
	w.saves()
	if c.Notes != "" {
		w.b.WriteString(document.HTML([]byte(c.Notes)))
	}
	return w.b.String()
}

type page struct {
	b     strings.Builder
	card  *Card
	shown Shown
}

// text writes words so that nothing in them is mark-up.
func (w *page) text(s string) { w.b.Write(util.EscapeHTML([]byte(s))) }

// line writes words between two tags.
func (w *page) line(before, s, after string) {
	if s == "" {
		return
	}
	w.b.WriteString(before)
	w.text(s)
	w.b.WriteString(after + "\n")
}

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
		w.text(at(w.shown.Items, i))
		w.b.WriteString("</td><td>")
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
		w.text(it.Prep)
		w.b.WriteString("</td></tr>\n")
	}
	w.b.WriteString("</tbody>\n</table>\n")
}

// method writes the steps as lists that go on counting from one another: a
// heading stands between the ways.
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
		w.facts(i, s)
		w.b.WriteString("</li>\n")
	}
	w.b.WriteString("</ol>\n")
}

func (w *page) runs(step int, s *Step) {
	var uses []string
	if step < len(w.shown.Uses) {
		uses = w.shown.Uses[step]
	}
	for r, run := range s.Text {
		if run.Item == 0 && !run.Strong {
			w.text(run.Text)
			continue
		}
		w.b.WriteString("<strong>")
		if a := at(uses, r); a != "" {
			w.text(a + " ")
		}
		w.text(run.Text)
		w.b.WriteString("</strong>")
	}
}

// facts writes a step's facts as the author typed them, save for amounts.
func (w *page) facts(step int, s *Step) {
	lines := w.card.Facts(s, at(w.shown.Until, step))
	if len(lines) == 0 {
		return
	}
	w.b.WriteString("\n<ul>\n")
	for _, l := range lines {
		w.line("<li>", l, "</li>")
	}
	w.b.WriteString("</ul>\n")
}

// Facts lists the facts of a step, word and value, as the author typed them.
// Until, where not empty, stands for the amount a step ends at, scaled.
func (c *Card) Facts(s *Step, until string) []string {
	var out []string
	add := func(word, value string) {
		if value != "" {
			out = append(out, word+": "+value)
		}
	}
	for _, q := range s.Equipment {
		if q.Words == "" {
			out = append(out, q.Name)
		} else {
			add(q.Name, q.Words)
		}
	}
	switch {
	case s.After.Start:
		add("after", "start")
	case s.After.Step > 0:
		add("after", "step "+strconv.Itoa(c.Steps[s.After.Step-1].Number))
	}
	add("load", quantity.Show(s.Load, quantity.Prefs{}))
	add("hands", s.Hands.String())
	add("wait", s.Wait.String())
	if until == "" {
		until = s.Until.Words
	}
	add("until", until)
	for _, k := range s.Keep {
		add("keep", k.String())
	}
	if s.Cool.Set {
		words := strconv.FormatFloat(s.Cool.ToC, 'f', -1, 64) + " °C"
		if s.Cool.Within > 0 {
			words += " within " + document.FormatSeconds(s.Cool.Within)
		}
		add("cool", words)
	}
	for _, limit := range s.Check {
		add("check", limit.Words)
	}
	for _, words := range s.Caution {
		add("caution", words)
	}
	for _, slug := range s.Saves {
		add("saves", strings.ReplaceAll(slug, "-", " "))
	}
	if s.Serve {
		out = append(out, "serve")
	}
	if s.Unwatched {
		add("unwatched", "yes")
	}
	return out
}

// String is "4 d chilled", or "straight on".
func (k Keep) String() string {
	if k.Seconds == 0 {
		return k.Place
	}
	return document.FormatSeconds(k.Seconds) + " " + k.Place
}

func (w *page) saves() {
	if len(w.card.Saves) == 0 {
		return
	}
	w.b.WriteString("<h2>Saves</h2>\n<ul>\n")
	for i, s := range w.card.Saves {
		words := s.Name
		if a := at(w.shown.Saves, i); a != "" {
			words += ": " + a
		}
		for _, k := range s.Keeps {
			words += ", " + k.String()
		}
		w.line("<li>", words, "</li>")
	}
	w.b.WriteString("</ul>\n")
}

func at(s []string, i int) string {
	if i < len(s) {
		return s[i]
	}
	return ""
}
