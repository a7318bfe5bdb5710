package convert

import (
	"hobside/internal/card"
	"hobside/internal/document"
	"hobside/internal/quantity"
)

// Card returns the recipe as card Markdown. It compiles without errors: a proposal that the
// compiler refuses is taken back, and what can't stand where it belongs is among the notes.
// It leaves the recipe as the card has it.
func (r *Recipe) Card() string {
	if r.own != nil {
		return string(r.own)
	}
	r.weigh()
	for range len(r.Ingredients) + 4*len(r.Steps) + 8 {
		w := r.write()
		c, problems := card.Parse("card.md", []byte(w.b.String()))
		if !r.stepBack(w, problems) {
			if len(c.Items) == len(r.Ingredients) && len(c.Steps) == len(r.Steps) && !broken(problems) && c.Makes.Unit != nil {
				return w.b.String()
			}
			break
		}
	}
	return r.wordsOnly()
}

// weigh says what a formula in percent weighs, where the source does not.
func (r *Recipe) weigh() {
	percent := false
	for _, it := range r.Ingredients {
		if it.Amount.Unit == nil && !it.Percent.IsZero() {
			percent = true
		}
	}
	for _, it := range r.Ingredients {
		if it.Amount.Unit != nil && !it.Percent.IsZero() {
			return // a weight stands beside its percentage
		}
	}
	if !percent || r.formula.Unit != nil {
		return
	}
	m := r.Makes
	kg, _ := quantity.LookupUnit("kg")
	switch {
	case m.Amount.Unit != nil && m.Amount.Unit.Dim == quantity.Mass:
	case m.Amount.Unit != nil && m.Each.Unit != nil && m.Amount.To.IsZero():
		r.formula = m.Each.Scale(m.Amount.Qty)
	default:
		r.formula = quantity.Amount{Qty: quantity.Int(1), Unit: kg}
		r.Doubts = append(r.Doubts, "the source has percentages and no weight: a formula of 1 kg stands in for it; write what all of it weighs")
	}
}

// stepBack takes back what the compiler's errors are about. It reports whether it took
// anything back.
func (r *Recipe) stepBack(w *writer, problems []document.Problem) bool {
	items, changed := map[int]bool{}, false
	facts := map[[2]int]bool{}
	for _, p := range problems {
		if p.Severity != document.Error {
			continue
		}
		at, ok := w.places[p.Line]
		switch {
		case !ok:
		case at.item >= 0:
			items[at.item] = true
		case at.fact >= 0:
			facts[[2]int{at.step, at.fact}] = true
		case at.step >= 0:
			s := &r.Steps[at.step]
			if len(s.bold) > 0 {
				s.bold, changed = nil, true
			} else if len(s.facts) > 0 {
				s.facts, changed = nil, true
			}
		case at.makes:
			changed = r.unweigh() || changed
		}
	}
	return r.drop(items, facts) || changed
}

// unweigh takes back the front matter that the compiler refuses: first what it adds to what
// is made, then what is made. A formula in percent that adds up to nothing becomes notes.
func (r *Recipe) unweigh() bool {
	switch {
	case r.Makes.Each.Unit != nil:
		r.Makes.Each = quantity.Amount{}
	case r.formula.Unit != nil:
		r.formula = quantity.Amount{}
		shares := map[int]bool{}
		for i, it := range r.Ingredients {
			shares[i] = it.Amount.Unit == nil && !it.Percent.IsZero()
		}
		r.drop(shares, nil)
	case r.Makes.Amount.Unit != nil:
		r.Makes.Amount = quantity.Amount{}
	default:
		return false
	}
	return true
}

// drop moves ingredients to what was not read, and takes facts back.
func (r *Recipe) drop(items map[int]bool, facts map[[2]int]bool) bool {
	var kept []Ingredient
	for i, it := range r.Ingredients {
		if items[i] {
			r.leave(it.Section, it.Line)
			continue
		}
		kept = append(kept, it)
	}
	r.Ingredients = kept
	for i := range r.Steps {
		s := &r.Steps[i]
		var left []string
		for f, fact := range s.facts {
			if !facts[[2]int{i, f}] {
				left = append(left, fact)
			}
		}
		s.facts = left
	}
	return len(items)+len(facts) > 0
}

// leave puts a line among those that were not read, with the sub-heading over it.
func (r *Recipe) leave(section, line string) {
	if section != "" {
		line = section + ": " + line
	}
	r.NotRead = append(r.NotRead, line)
}

// broken reports whether a card has an error.
func broken(problems []document.Problem) bool {
	for _, p := range problems {
		if p.Severity == document.Error {
			return true
		}
	}
	return false
}

// wordsOnly returns a card that has all of the recipe's words among its notes, for a text
// that no card can hold otherwise.
func (r *Recipe) wordsOnly() string {
	for _, it := range r.Ingredients {
		r.leave(it.Section, it.Line)
	}
	for _, s := range r.Steps {
		r.NotRead = append(r.NotRead, squeeze(s.Section+" "+s.Name+" "+s.Text))
	}
	r.NotRead = append(r.NotRead, r.Title)
	r.NotRead = append(r.NotRead, r.Intro...)
	r.Ingredients, r.Steps, r.Intro, r.Makes.Each = nil, nil, nil, quantity.Amount{}
	if w := r.write(); len(w.b.String()) <= document.MaxBytes {
		if _, problems := card.Parse("card.md", []byte(w.b.String())); !broken(problems) {
			return w.b.String()
		}
	}
	r.Makes = Makes{Words: r.Makes.Words}
	r.Title = ""
	return r.write().b.String()
}
