package monitor

import "hobside/internal/safety"

// rows returns the limits of the kitchen's rules for the core of this step. Each is
// enough by itself.
func (w *watching) rows() []safety.Limit {
	if w.class != safety.NotKnown {
		return safety.CookFood(w.rules, w.class, w.food)
	}
	var out []safety.Limit
	for _, l := range w.reheating() {
		if w.rules != safety.UK {
			out = append(out, l)
		}
	}
	return out
}

// reheating returns the limits for food that was cooked before, where this step
// heats what another card makes.
func (w *watching) reheating() []safety.Limit {
	made := false
	for _, r := range w.step.Text {
		made = made || r.Item > 0 && w.card.Items[r.Item-1].Card != ""
	}
	var out []safety.Limit
	for _, l := range safety.For(w.rules, safety.Reheat, safety.Cooked) {
		if made && l.HasTemp && l.Bound == safety.AtLeast && !l.Stand {
			out = append(out, l)
		}
	}
	return out
}

// scotland adds the Scottish limit for re-heating, the only one in the UK,
// because a kitchen file does not say in which country of the UK it is.
func (w *watching) scotland() {
	if w.brief || w.rules != safety.UK || w.class != safety.NotKnown {
		return
	}
	for _, l := range w.reheating() {
		w.line(None, "In "+l.Case+", re-heated food: "+w.limit(l), l.Source)
	}
}

// usual returns the limit that a code is best known by, of those that are enough.
func (w *watching) usual(rows []safety.Limit) safety.Limit {
	if l, ok := safety.Usual(w.rules, w.class); ok {
		return l
	}
	return rows[0]
}

// beside compares with the rules' limits as well as the card's own: the first that
// is met, else the usual one.
func (w *watching) beside(rows []safety.Limit) {
	held, err := safety.Against(rows, w.counted)
	if err != nil {
		return
	}
	for _, h := range held {
		if h.Met {
			w.line(Met, w.heldText(h), h.Limit.Source)
			return
		}
	}
	u := w.usual(rows)
	for _, h := range held {
		if h.Limit.ID != u.ID {
			continue
		}
		w.line(w.stateOf(false), w.heldText(h), u.Source)
		if w.out.State != Met {
			continue // one thing at a time
		}
		w.out.Line += " The rules' " + w.limit(u) + " is not reached."
		if !u.Advice {
			w.out.State = w.stateOf(false)
		}
	}
}

// noBasis adds what could not be compared, and why.
func (w *watching) noBasis() {
	w.scotland()
	switch {
	case w.rules == "":
		w.line(None, `The kitchen names no rules, so nothing is compared with a code: write "rules: us" or "rules: uk" there`, safety.Source{})
	case w.class == safety.NotKnown && w.out.Kind != "cool" && len(w.rows()) == 0:
		w.line(None, "No item here is a raw food that the rules have a row for by its name", safety.Source{})
	}
}
