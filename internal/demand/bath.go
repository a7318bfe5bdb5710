package demand

import (
	"strings"

	"hobside/internal/card"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// A bath is what food lies in and is taken out of, so that only a part of it is eaten.
type bath int

// The baths.
const (
	frying bath = iota
	marinade
	baths
)

// stays is the share of the weight of the food in a bath that stays on it or in it of the
// bath: our own working assumption, no source.
const stays = 0.1

// bathOf returns the bath that an item of a card is for, by the words of its preparation
// ("for frying", "for the marinade"), its heading in the formula or its last word. ok is
// false for what is eaten: "olives in brine", "brined chicken".
func bathOf(cards map[string]*card.Card, c *card.Card, it *card.Item) (in bath, ok bool) {
	prep := strings.ToLower(it.Prep)
	words := strings.ToLower(it.Name) + " " + prep
	if it.Card == "" && (strings.Contains(words, "frying") || strings.Contains(words, "to fry") || strings.Contains(words, "for deep")) {
		return frying, true
	}
	for _, phrase := range [...]string{"for the marinade", "for marinating", "to marinate", "for the brine", "for brining", "for the cure", "for curing"} {
		if strings.Contains(prep, phrase) {
			return marinade, true
		}
	}
	name := it.Name
	if sub := cards[it.Card]; sub != nil {
		name = sub.Title
	}
	return marinade, isMarinade(it.Group) || it.Save == "" && isMarinade(name) && !strings.Contains(name, " in ")
}

// isMarinade reports whether words name a marinade by their end.
func isMarinade(words string) bool {
	low := " " + strings.ToLower(strings.TrimRight(words, ": "))
	for _, name := range [...]string{" marinade", " brine", " cure", " pickling liquor"} {
		if strings.HasSuffix(low, name) {
			return true
		}
	}
	return false
}

// takenOut reports whether a step of a card takes the food out of its marinade.
func takenOut(c *card.Card) bool {
	return stepSays(c, "drain", "discard", "throw away", "pat dry", "pat them dry", "pat it dry", "wipe", "rinse", "shake off", "scrape off",
		"out of the marinade", "from the marinade", "out of the brine", "from the brine", "out of its marinade", "out of its brine")
}

// bath adds what stays of the items of one bath, after all that lies in it was added: no
// more than [stays] of its weight. A marinade that no step takes the food out of is eaten.
func (w *factsWalk) bath(f *Facts, c *card.Card, in bath, items []int, ratios []Ratio) {
	if len(items) == 0 {
		return
	}
	if in == marinade && !takenOut(c) {
		f.assume("the marinade of " + c.Title + " is counted whole: no step takes the food out of it")
		for _, i := range items {
			w.item(f, c, i, ratios, 1)
		}
		return
	}
	whole, share := 0.0, 1.0
	for _, i := range items {
		whole += w.gramsOf(&c.Items[i], ratios[i])
	}
	if most := stays * f.In; whole > most {
		share = most / whole
		switch in {
		case frying:
			f.assume(c.Items[items[0]].Name + " is for frying: a tenth of the weight of what is fried is taken to stay")
		default:
			f.assume("the marinade of " + c.Title + " is not eaten whole: a tenth of the weight of what lies in it is taken to stay")
		}
	}
	for _, i := range items {
		w.item(f, c, i, ratios, share)
	}
}

// gramsOf returns what an item weighs, also one that another card makes; 0 where that is not
// known.
func (w *factsWalk) gramsOf(it *card.Item, r Ratio) float64 {
	sub := w.cards[it.Card]
	if it.Card == "" || sub == nil || it.Amount.Unit == nil {
		return float(r.Grams)
	}
	gram, _ := quantity.LookupUnit("g")
	n, _, err := larder.Convert(sub.Title, it.Amount.Need(), it.Amount.Unit, gram, sub.Own())
	if err != nil {
		return 0
	}
	return float(n)
}
