package card

import "hobside/internal/larder"

// A Handling says which steps of cards handle a food, an allergen or what is made of an
// animal. Cards that other cards are made of are looked up through the function it was
// made with.
type Handling struct {
	avoid larder.Avoid
	find  func(id string) *Card
	has   map[string]bool // by card ID; a card on the path, against loops, has it not
	steps map[string][]bool
}

// Handles returns the handling of something by words that the foods given understand.
func Handles(words string, foods *larder.Foods, find func(id string) *Card) *Handling {
	a, _ := foods.Understand(words)
	return &Handling{avoid: a, find: find, has: map[string]bool{}, steps: map[string][]bool{}}
}

// Has reports whether a card has it, through all that it is made of. What its author
// takes back ("without") it has not.
func (h *Handling) Has(id string) bool {
	if has, known := h.has[id]; known {
		return has
	}
	h.has[id] = false
	c := h.find(id)
	if c == nil {
		return false
	}
	for _, word := range c.Without {
		if a, ok := c.Foods.Understand(word); ok && a.Covers(h.avoid) {
			return false
		}
	}
	has := false
	for _, d := range c.Contains {
		has = has || h.avoid.OfDeclared(d, c.Foods).Sure
	}
	for i := range c.Items {
		has = has || h.item(c, &c.Items[i])
	}
	h.has[id] = has
	return has
}

// item reports whether one line of a formula has it.
func (h *Handling) item(c *Card, it *Item) bool {
	for _, d := range c.Foods.Asides(it.Name, it.Prep) {
		if h.avoid.OfDeclared(d, c.Foods).Sure {
			return true
		}
	}
	if it.Card != "" && it.Save == "" {
		return h.Has(it.Card)
	}
	return h.avoid.Of(it.Name, c.Foods).Sure
}

// Steps reports, by step of a card, which handle it: a step that names an item that has
// it, and every step that follows one that does.
func (h *Handling) Steps(c *Card) []bool {
	if out, known := h.steps[c.ID]; known {
		return out
	}
	out := make([]bool, len(c.Steps))
	if h.Has(c.ID) {
		has := make([]bool, len(c.Items)+1)
		for i := range c.Items {
			has[i+1] = h.item(c, &c.Items[i])
		}
		for i := range c.Steps {
			for _, r := range c.Steps[i].Text {
				out[i] = out[i] || has[r.Item]
			}
			if before, ok := c.StepBefore(i); ok {
				out[i] = out[i] || out[before]
			}
		}
	}
	h.steps[c.ID] = out
	return out
}
