package engine

import (
	"slices"
	"strings"

	"hobside/internal/card"
	"hobside/internal/demand"
	"hobside/internal/library"
	"hobside/internal/safety"
)

// warned is what a cook of one card has been told already: a danger is said
// once, where it comes first, and not at every step after.
type warned struct {
	said   []string // the author's own cautions so far
	topics map[string]bool
	avoid  []string // what guests of this dinner exclude
}

// cautions are the author's own, then the usual ones for what the step handles.
func (w *warned) cautions(s *card.Step, items []string) []string {
	w.said = append(w.said, s.Caution...)
	f := safety.StepFacts{Items: items, Text: wordsOf(s), Said: w.said, Equipment: s.EquipmentNames()}
	for _, it := range items {
		for _, a := range demand.Excluded(it, w.avoid) {
			if !slices.Contains(f.Allergens, a) {
				f.Allergens = append(f.Allergens, a)
			}
		}
	}
	out := append([]string{}, s.Caution...)
	for _, c := range safety.Cautions(f) {
		if !w.topics[c.Topic] {
			w.topics[c.Topic] = true
			out = append(out, c.Text)
		}
	}
	return out
}

// cautionsOf are the cautions of each step of a card done in one way, at a dinner
// whose guests exclude so much. They are looked up once: a change of covers
// changes none.
func (e *Engine) cautionsOf(d *library.File, way int, avoid []string) [][]string {
	key := cautionKey{d, itoa(way) + "," + strings.Join(avoid, ",")}
	if got, ok := e.warnings[key]; ok {
		return got
	}
	c := d.Card
	w := &warned{topics: map[string]bool{}, avoid: avoid}
	out := make([][]string, len(c.Steps))
	for i := range c.Steps {
		s := &c.Steps[i]
		if s.Way != 0 && s.Way != way {
			continue
		}
		var items []string
		for _, r := range s.Text {
			if r.Item > 0 {
				items = append(items, c.Items[r.Item-1].Name)
			}
		}
		out[i] = w.cautions(s, items)
	}
	e.warnings[key] = out
	return out
}

// wordsOf is all a step says of the work: its sentence, and its sign of done,
// where a syrup's temperature stands.
func wordsOf(s *card.Step) string {
	var b strings.Builder
	for _, r := range s.Text {
		b.WriteString(r.Text)
	}
	if s.Until.Words != "" {
		b.WriteString(" . " + s.Until.Words)
	}
	return b.String()
}

// A cautionKey names what the cautions of a card depend on.
type cautionKey struct {
	file *library.File
	by   string // the way, and what guests exclude
}
