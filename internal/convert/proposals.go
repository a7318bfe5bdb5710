package convert

import "strings"

// A Line is one line of a card, for a person who takes or leaves what is proposed in it.
type Line struct {
	Text  string `json:"text"`
	Plain string `json:"plain,omitempty"` // the line without what is proposed in it; "" where Fact is set
	Fact  bool   `json:"fact,omitempty"`  // all of the line is a proposal
}

// Lines returns the recipe's card line by line. Joined by line breaks, the texts are
// [Recipe.Card]; any of the proposals may be left out.
func (r *Recipe) Lines() []Line {
	whole := r.Card()
	if r.own != nil {
		return plainLines(whole)
	}
	w := r.write()
	if w.b.String() != whole {
		return plainLines(whole)
	}
	out := plainLines(whole)
	for i := range out {
		switch at := w.places[i+1]; {
		case at.fact >= 0:
			out[i].Fact = true
		case at.step >= 0 && len(r.Steps[at.step].bold) > 0:
			bare := r.Steps[at.step]
			bare.bold = nil
			number, _, _ := strings.Cut(out[i].Text, " ")
			out[i].Plain = number + " " + bare.markdown()
		}
	}
	return out
}

// plainLines returns lines without proposals.
func plainLines(s string) []Line {
	var out []Line
	for row := range strings.SplitSeq(s, "\n") {
		out = append(out, Line{Text: row})
	}
	return out
}

// Words returns what was read, in the source's own words, to be shown beside the card.
func (r *Recipe) Words() []string {
	out := []string{r.title()}
	add := func(list ...string) {
		for _, s := range list {
			if s != "" {
				out = append(out, s)
			}
		}
	}
	add(r.Makes.Words)
	add(r.Intro...)
	section, last := "", ""
	for _, it := range r.Ingredients {
		if it.Section != section {
			section = it.Section
			add(section)
		}
		if it.Line != last {
			last = it.Line
			add(last)
		}
	}
	section = ""
	for _, s := range r.Steps {
		if s.Section != section {
			section = s.Section
			add(section)
		}
		add(strings.TrimSpace(s.Name + " " + s.Text))
	}
	add(r.Notes...)
	add(r.NotRead...)
	return out
}
