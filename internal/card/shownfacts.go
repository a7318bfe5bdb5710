package card

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// A ShownFact is a fact of a step as it is shown.
type ShownFact struct {
	Word  string // "hands", "oven"
	Value string // as on the page, "" for a word without a value
	Stove string // as at the stove, "" where the stove shows it in a place of its own
}

// String is the fact as an author types it: "hands: 10 min", "serve".
func (f ShownFact) String() string {
	if f.Value == "" {
		return f.Word
	}
	return f.Word + ": " + f.Value
}

// Facts returns the facts of a step, by its index in Card.Steps, in one order for
// all cards. Values are as the author typed them, but for an amount that the step
// ends at, which is scaled. A new fact word is added here once, and every screen
// and sheet shows it.
func (s *Scaled) Facts(step int) []ShownFact {
	c, st := s.Card, &s.Card.Steps[step]
	var out []ShownFact
	add := func(word, value, stove string) {
		if value != "" {
			out = append(out, ShownFact{word, value, stove})
		}
	}
	alone := func(word string) { out = append(out, ShownFact{Word: word}) }
	for _, q := range st.Equipment {
		out = append(out, ShownFact{Word: q.Name, Value: q.Words})
	}
	if st.Vessel.Name != "" {
		value, stove := s.vesselShown(step)
		add(st.Vessel.Name, value, stove)
	}
	switch {
	case st.After.Start:
		add("after", "start", "")
	case st.After.Step > 0:
		add("after", "step "+strconv.Itoa(c.Steps[st.After.Step-1].Number), "")
	}
	for _, o := range st.Order {
		add(o.word(), o.String(), o.String())
	}
	if from := c.ApartFrom(st); len(from) > 0 {
		words := strings.Join(from, ", ") + " (" + st.Clean() + ")"
		add("apart", words, words)
	}
	add("load", quantity.Show(st.Load, quantity.Prefs{AsTyped: true}), "")
	add("hands", st.HandsText(st.Hands), "")
	add("wait", st.WaitText(st.Wait), "")
	add("until", s.Steps[step].Until, "")
	for _, k := range st.Keep {
		add("keep", k.String(), s.held(k))
	}
	if st.Plates.Set {
		add("plates", st.Plates.String(), s.held(st.Plates.Keep))
	}
	if st.Cool.Set {
		within := ""
		if st.Cool.Within > 0 {
			within = " within " + document.FormatSeconds(st.Cool.Within)
		}
		add("cool", celsius(st.Cool.ToC)+within, "to "+s.degrees(st.Cool.ToC)+within)
	}
	for _, check := range st.Check {
		add("check", check.Words, check.Words)
	}
	for _, words := range st.Caution {
		add("caution", words, "")
	}
	for _, slug := range st.Saves {
		add("saves", strings.ReplaceAll(slug, "-", " "), "")
	}
	if st.Serve {
		alone("serve")
	}
	if st.Unwatched {
		add("unwatched", "yes", "")
	}
	return out
}

// stoveFirst is the order of the facts that have no place of their own at the
// stove: what can hurt someone first. Other words follow as the card has them.
var stoveFirst = []string{"apart", "check", "cool", "keep", "plates"}

// StoveFacts returns the facts of a step that have no place of their own at the
// stove, in the order of stoveFirst.
func (s *Scaled) StoveFacts(step int) []ShownFact {
	out := slices.DeleteFunc(s.Facts(step), func(f ShownFact) bool { return f.Stove == "" })
	rank := func(f ShownFact) int {
		if i := slices.Index(stoveFirst, f.Word); i >= 0 {
			return i
		}
		return len(stoveFirst)
	}
	slices.SortStableFunc(out, func(a, b ShownFact) int { return cmp.Compare(rank(a), rank(b)) })
	return out
}

// Sentence returns the words of a step with the scaled amount before each item, as on
// paper.
func (s *Scaled) Sentence(step int) string {
	var text strings.Builder
	for r, run := range s.Card.Steps[step].Text {
		if uses := s.Steps[step].Uses; r < len(uses) && uses[r].Amount != "" {
			text.WriteString(uses[r].Amount + " ")
		}
		text.WriteString(run.Text)
	}
	return text.String()
}
