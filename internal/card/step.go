package card

import (
	"strings"

	"hobside/internal/document"
)

// Sentence returns the step's words as read, without the amounts.
func (s *Step) Sentence() string {
	var b strings.Builder
	for _, r := range s.Text {
		b.WriteString(r.Text)
	}
	return b.String()
}

// EquipmentNames returns the names of what the step occupies, in the order of
// the card: "hob", "oven".
func (s *Step) EquipmentNames() []string {
	var out []string
	for _, q := range s.Equipment {
		out = append(out, q.Name)
	}
	return out
}

// Uses reports whether the step occupies equipment of this name.
func (s *Step) Uses(equipment string) bool {
	for _, q := range s.Equipment {
		if q.Name == equipment {
			return true
		}
	}
	return false
}

// Probed reports whether the step asks for a core temperature: by its sign of
// done, by a check with a figure, or because it cools.
func (s *Step) Probed() bool {
	if s.Until.HasCore || s.Cool.Set {
		return true
	}
	for _, c := range s.Check {
		if c.OfFood() {
			return true
		}
	}
	return false
}

// Syrup returns the temperature in °C that a syrup on the hob is boiled to,
// where the step's sign of done is one. ok is false for any other step.
func (s *Step) Syrup() (c float64, ok bool) {
	if s.Until.HasCore || !s.Uses("hob") {
		return 0, false
	}
	c, ok = document.Temperature(s.Until.Words)
	return c, ok && c > 101 && c <= 130
}

// In reports whether the step is done when the card is made by a way: 1 + index
// in Card.Ways, 0 for a card that has none.
func (s *Step) In(way int) bool { return s.Way == 0 || s.Way == way }

// Beginning returns the first sentence of the step, cut at a word where it is
// longer than a line of a plan.
func (s *Step) Beginning() string {
	text := strings.Join(strings.Fields(s.Sentence()), " ")
	if i := strings.IndexAny(text, ".;:"); i > 0 {
		text = text[:i]
	}
	const most = 72
	if len(text) <= most {
		return text
	}
	cut := strings.LastIndexByte(text[:most], ' ')
	if cut < most/2 {
		cut = strings.LastIndexByte(text[:most+1], ' ')
	}
	if cut < 0 {
		return text
	}
	return text[:cut] + " …"
}
