package monitor

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/larder"
	"hobside/internal/safety"
)

// Cautions returns the cautions of each step of a card made by a way, at a dinner
// whose guests exclude some words. A danger is told at the first step that has it,
// not at every step after.
func Cautions(c *card.Card, way int, excluded []string) [][]string {
	t := told{foods: c.Foods, topics: map[string]bool{}, excluded: excluded}
	out := make([][]string, len(c.Steps))
	for i := range c.Steps {
		s := &c.Steps[i]
		if !s.In(way) {
			continue
		}
		var items []string
		for _, r := range s.Text {
			if r.Item > 0 {
				items = append(items, c.Items[r.Item-1].Name)
			}
		}
		out[i] = t.cautions(s, items)
	}
	return out
}

// told holds the cautions that the cook of one card has already been given.
type told struct {
	foods    *larder.Foods // the kitchen's own; nil for none
	own      []string      // the author's own cautions so far
	topics   map[string]bool
	excluded []string
}

// cautions returns the author's own cautions of a step, then the usual ones for
// what the step handles.
func (t *told) cautions(s *card.Step, items []string) []string {
	t.own = append(t.own, s.Caution...)
	text := s.Sentence()
	if s.Until.Words != "" { // a syrup's temperature is in the sign of done
		text += " . " + s.Until.Words
	}
	var known []string // what the rules know of
	for _, it := range items {
		known = append(known, t.foods.Known(it))
	}
	facts := safety.StepFacts{Items: known, Text: text, Said: t.own, Equipment: s.EquipmentNames()}
	for _, it := range items {
		for _, a := range demand.Excluded(t.foods, it, t.excluded) {
			if !slices.Contains(facts.Allergens, a) {
				facts.Allergens = append(facts.Allergens, a)
			}
		}
	}
	out := append([]string{}, s.Caution...)
	for _, c := range safety.Cautions(facts) {
		if !t.topics[c.Topic] {
			t.topics[c.Topic] = true
			out = append(out, c.Text)
		}
	}
	return out
}
