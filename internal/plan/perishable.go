package plan

import (
	"slices"

	"hobside/internal/card"
	"hobside/internal/safety"
)

// perishable reports whether what a step of a card leaves must not stand at room
// temperature: it holds perishable food, or food that has become so by cooking.
func (b *builder) perishable(c *card.Card, step int) bool {
	key := taking{c.ID, step + 1}
	spoils, known := b.spoils[key]
	if !known {
		if b.spoils == nil {
			b.spoils = map[taking]bool{}
		}
		spoils = b.holdsPerishable(c, step)
		b.spoils[key] = spoils
	}
	return spoils
}

func (b *builder) holdsPerishable(c *card.Card, step int) bool {
	cooked := false
	for i := range c.Steps[:step+1] {
		s := &c.Steps[i]
		if !b.taken(c, s) {
			continue
		}
		cooked = cooked || safety.Wet(s.Sentence())
		for _, r := range s.Text {
			if r.Item > 0 && b.perishableItem(c, &c.Items[r.Item-1], cooked, nil) {
				return true
			}
		}
	}
	return false
}

// perishableItem reports whether an item is perishable, cooked in liquid or not. What
// another card makes is by how that card keeps, or by its own items where it does not
// say. on holds the cards on the path, against loops.
func (b *builder) perishableItem(in *card.Card, it *card.Item, cooked bool, on []string) bool {
	name := in.Foods.Known(it.Name)
	if it.Card == "" || it.Save != "" {
		return safety.Perishable(name) || cooked && safety.PerishableCooked(name)
	}
	c := b.in.Dinner.Cards[it.Card]
	if c == nil || slices.Contains(on, it.Card) {
		return safety.Perishable(name)
	}
	if len(c.Keeps) > 0 {
		return !slices.ContainsFunc(c.Keeps, func(k card.Keep) bool { return k.Place == "room" })
	}
	return slices.ContainsFunc(c.Items, func(of card.Item) bool { return b.perishableItem(c, &of, cooked, append(on, it.Card)) })
}
