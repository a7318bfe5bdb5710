package card

import (
	"slices"
	"strings"

	"hobside/internal/document"
)

// grades are the grades in which a food is bought, by the words that cards use for them. The
// order list keeps them apart: fine salt does not do for flaked.
var grades = map[string][][2]string{
	"salt":     {{"flaked", "flaked"}, {"flaky", "flaked"}, {"flakes", "flaked"}, {"coarse", "coarse"}, {"rock", "rock"}, {"fine", "fine"}},
	"sea salt": {{"flaked", "flaked"}, {"flaky", "flaked"}, {"flakes", "flaked"}, {"coarse", "coarse"}, {"fine", "fine"}},
	"gelatine": {{"bronze", "bronze"}, {"silver", "silver"}, {"gold", "gold"}, {"platinum", "platinum"}, {"titanium", "titanium"}},
}

// unready are the states in which food is bought and has work before it, with that work as
// [Card.PrepWork] writes it. Common practice, no source.
var unready = map[string]string{
	"in the pod": "podded", "in pods": "podded", "in the shell": "shelled", "in shells": "shelled", "in the husk": "husked",
	"in bunches": "picked", "in a bunch": "picked", "in the bunch": "picked", "on the bone": "boned", "on the stalk": "picked",
	"ungutted": "gutted", "with scales": "scaled", "with skin": "skinned", "unpeeled": "peeled", "whole and ungutted": "gutted",
}

// boughtPhrase is what a phrase of the preparation begins with that says how the item is bought.
const boughtPhrase = "bought "

// boughtIn reads "bought in the pod" into an item. It adds a problem for what says no state.
func (p *parser) boughtIn(it *Item, part string, at int) {
	how := strings.TrimSpace(part[len(boughtPhrase):])
	switch {
	case it.Card != "":
		p.Err(at, `"`+document.Clip(part)+`": another card makes it, so nobody buys it`, "", "take it out")
	case it.Bought != "":
		p.Err(at, `"`+document.Clip(part)+`" says a second time how it is bought`, "", "take one out")
	case strings.ContainsAny(how, "0123456789"):
		p.Err(at, `"`+document.Clip(part)+`": how much is bought is worked out from the amount and the trim`, "", `write how it is bought, like "bought in the pod", and what is lost, like "trim 62 %"`)
	default:
		it.Bought = strings.ToLower(document.Valid(how))
	}
}

// BoughtAs returns in which state or grade an item is bought, as the order list writes it behind
// its name: "in the pod", "flaked", "silver". It returns "" where the card does not say.
func (c *Card) BoughtAs(it *Item) string {
	if it.Bought != "" {
		return it.Bought
	}
	food := c.Foods.Nearest(it.Name).Food
	if food == nil {
		return ""
	}
	words := strings.FieldsFunc(strings.ToLower(it.Name+" "+it.Prep), func(r rune) bool { return r == ' ' || r == ',' || r == '(' || r == ')' || r == '-' })
	for _, grade := range grades[food.Name] {
		if slices.Contains(words, grade[0]) {
			return grade[1]
		}
	}
	return ""
}

// Ready reports whether an item is bought as it is used, so that nothing of it is lost in
// trimming: "bought podded".
func (it *Item) Ready() bool {
	for word := range strings.FieldsSeq(it.Bought) {
		switch word {
		case "ready", "prepared":
			return true
		case "gutted": // its head and bones are still there
		default:
			if prepVerbs[word] != "" {
				return true
			}
		}
	}
	return false
}
