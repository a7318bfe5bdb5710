package convert

import (
	"strconv"
	"strings"

	"hobside/internal/quantity"
)

// A page of a card under way knows what stands on which line, so that a problem of the
// compiler leads back to it.
type writer struct {
	b      strings.Builder
	line   int
	places map[int]place // by line, from 1
}

// A place is a part of a recipe: an ingredient, a step, or one fact of a step.
type place struct {
	item, step, fact int // indices; −1 for none
	makes            bool
}

func (w *writer) put(s string, at place) {
	w.line++
	w.places[w.line] = at
	w.b.WriteString(s)
	w.b.WriteByte('\n')
}

// words writes lines that belong to no part.
func (w *writer) words(list ...string) {
	for _, s := range list {
		w.put(s, place{-1, -1, -1, false})
	}
}

// write writes a recipe as a card.
func (r *Recipe) write() *writer {
	w := &writer{places: map[int]place{}}
	w.words("---")
	w.put("makes: "+makesFact(r.Makes), place{-1, -1, -1, true})
	if r.Makes.Each.Unit != nil {
		w.put("each: "+quantity.Written(r.Makes.Each), place{-1, -1, -1, true})
	}
	if r.formula.Unit != nil {
		w.put("formula: "+quantity.Written(r.formula), place{-1, -1, -1, true})
	}
	w.words("---", "", "# "+escape(r.title()), "")
	for _, p := range r.Intro {
		w.words(escape(p), "")
	}
	if len(r.Ingredients) > 0 {
		r.writeFormula(w)
	}
	if len(r.Steps) > 0 {
		r.writeMethod(w)
	}
	r.writeNotes(w)
	return w
}

// title returns the recipe's name; a card without one has none to find it by.
func (r *Recipe) title() string {
	if r.Title == "" {
		return "Recipe without a title"
	}
	return r.Title
}

// makesFact writes what a recipe makes, "1 piece" where nobody knows.
func makesFact(m Makes) string {
	if m.Amount.Unit == nil {
		return "1 piece"
	}
	written := quantity.Written(m.Amount)
	if u := m.Amount.Unit; u.Dim == quantity.Count && m.Amount.Need().Cmp(quantity.Int(1)) > 0 {
		return strings.TrimSuffix(written, u.Symbol) + u.Plural
	}
	return written
}

func (r *Recipe) writeFormula(w *writer) {
	w.words("## Formula", "")
	section := ""
	for i, it := range r.Ingredients {
		if it.Section != section {
			if i > 0 {
				w.words("")
			}
			if section = it.Section; section != "" {
				w.words("### "+heading(section), "")
			} else {
				w.words("### Others", "")
			}
		}
		w.put("- "+escape(it.typed), place{i, -1, -1, false})
	}
	w.words("")
}

// heading returns the words of a sub-heading. Some words mean something to a card's method.
func heading(s string) string {
	s = escape(s)
	if low := strings.ToLower(strings.TrimRight(s, ":")); low == "then" || low == "way" || strings.HasPrefix(low, "way ") || strings.HasPrefix(low, "way:") || headingOfCard[low] {
		return "Part: " + s
	}
	return s
}

// headingOfCard are headings that begin a section of a card.
var headingOfCard = wordSet("formula ingredients items method directions steps instructions procedure saves by-products byproducts service faults")

func (r *Recipe) writeMethod(w *writer) {
	w.words("## Method", "")
	section := ""
	for i := range r.Steps {
		s := &r.Steps[i]
		if s.Section != section {
			if i > 0 {
				w.words("")
			}
			if section = s.Section; section != "" {
				w.words("### "+heading(section), "")
			} else {
				w.words("### Others", "")
			}
		}
		number := strconv.Itoa(i+1) + ". "
		w.put(number+s.markdown(), place{-1, i, -1, false})
		for f, fact := range s.facts {
			w.put(strings.Repeat(" ", len(number))+"- "+fact, place{-1, i, f, false})
		}
	}
	w.words("")
}

// markdown returns a step's words with the items that it uses in bold.
func (s *Step) markdown() string {
	var b strings.Builder
	if s.Name != "" {
		b.WriteString("*" + marks.Replace(s.Name) + ":* ")
	}
	from := 0
	for _, at := range s.bold {
		b.WriteString(marks.Replace(s.Text[from:at.from]) + "**" + marks.Replace(s.Text[at.from:at.to]) + "**")
		from = at.to
	}
	b.WriteString(marks.Replace(s.Text[from:]))
	return begin(b.String())
}

// writeNotes writes what stands beside the recipe, and what was not read.
func (r *Recipe) writeNotes(w *writer) {
	list := func(title string, rows []string) {
		if len(rows) == 0 {
			return
		}
		w.words("## "+title, "")
		for _, s := range rows {
			if s = escape(s); s != "" {
				w.words("- " + s)
			}
		}
		w.words("")
	}
	var aside []string
	for _, b := range r.ByProducts {
		aside = append(aside, b.Name+", step "+strconv.Itoa(b.Step)+": the source does not say how much")
	}
	list("Set aside", aside)
	list("Notes", r.Notes)
	list("To look at", r.ToLookAt())
	list("Not read", r.NotRead)
	var from []string
	if r.Makes.Words != "" {
		from = append(from, "What it makes, as the source has it: "+r.Makes.Words)
	}
	if r.Source != "" || r.Form != "" {
		from = append(from, strings.TrimPrefix(strings.TrimSuffix(r.Source+", "+r.Form, ", "), ", "))
	}
	list("Where it is from", append(from, r.rewritten()...))
}

// rewritten returns the lines of ingredients that the card has in other words.
func (r *Recipe) rewritten() []string {
	var out []string
	last := ""
	for _, it := range r.Ingredients {
		if it.Line != it.typed && it.Line != last {
			out = append(out, it.Line)
			last = it.Line
		}
	}
	if len(out) > 0 {
		out[0] = "Lines as the source has them: " + out[0]
	}
	return out
}

// ToLookAt returns what a person should look at.
func (r *Recipe) ToLookAt() []string {
	out := append([]string{}, r.Doubts...)
	if r.Makes.Amount.Unit == nil {
		out = append(out, "the source does not say what it makes: 1 piece stands in for it; write what it gives, like 6 portions")
	}
	return out
}
