package convert

import (
	"strconv"
	"strings"

	"hobside/internal/quantity"
)

// Report returns what was read as what, a line for each: what it is, how it was read, and
// what the source has.
func (r *Recipe) Report() []string {
	form := r.Form
	if r.Language == "de" {
		form += ", German"
	}
	out := []string{r.Source + ": " + r.title() + ", from " + form}
	row := func(what, read, source string) {
		if source != "" {
			read += "  <- " + source
		}
		out = append(out, "  "+what+strings.Repeat(" ", max(1, 13-len(what)))+read)
	}
	if r.Makes.Amount.Unit != nil {
		row("makes", makesFact(r.Makes), r.Makes.Words)
	}
	for _, it := range r.Ingredients {
		row("ingredient", it.String(), it.Line)
	}
	for i, s := range r.Steps {
		row("step "+strconv.Itoa(i+1), s.proposed(), start(s.Text))
	}
	for _, b := range r.ByProducts {
		row("set aside", b.Name+", step "+strconv.Itoa(b.Step), "")
	}
	for _, s := range r.ToLookAt() {
		row("look at", s, "")
	}
	for _, s := range r.NotRead {
		row("not read", s, "")
	}
	return out
}

// String writes an ingredient: "225 g plain flour (sifted)".
func (it Ingredient) String() string {
	amount := "no amount"
	switch {
	case it.Amount.Unit != nil:
		amount = quantity.Written(it.Amount)
	case it.Amount.ToTaste:
		amount = "to taste"
	case !it.Percent.IsZero():
		amount = quantity.ShowPercent(it.Percent)
	}
	s := amount + " | " + it.Item
	if it.Prep != "" {
		s += " (" + it.Prep + ")"
	}
	return s
}

// proposed writes the facts of a step.
func (s *Step) proposed() string {
	if len(s.facts) == 0 {
		return "no facts"
	}
	return strings.Join(s.facts, "; ")
}

// start returns the first words of a text.
func start(s string) string {
	list := strings.Fields(s)
	if len(list) <= 8 {
		return s
	}
	return strings.Join(list[:8], " ") + " …"
}
