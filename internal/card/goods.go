package card

import (
	"slices"
	"strings"

	"hobside/internal/document"
)

// goods are words that say which good is bought, and not what the cook does with it.
var goods = []string{"fresh", "soft", "dried", "dry", "smoked", "tinned", "canned", "frozen", "red", "white", "black", "green", "new", "sweet", "unsalted"}

// otherGood adds a problem for a phrase of the preparation that makes the item another good
// of the food table: "breadcrumbs, fresh" weigh less than breadcrumbs, "apricots, dried" carry
// sulphites. Weights, allergens and the order list go by the item's name alone.
func (p *parser) otherGood(it *Item, at int) {
	named, known := p.card.Foods.Find(it.Name)
	if !known || it.Card != "" {
		return
	}
	for part := range strings.SplitSeq(it.Prep, ",") {
		word := strings.ToLower(strings.TrimSpace(part))
		if !slices.Contains(goods, word) {
			continue
		}
		meant := word + " " + strings.ToLower(it.Name)
		if other, ok := p.card.Foods.Find(meant); ok && other.Slug() != named.Slug() {
			p.Warn(at, `"`+document.Clip(it.Name)+`" is bought and weighed, not "`+document.Clip(meant)+`"`, "", `write "`+document.Clip(meant)+`" as the name, if that is meant`)
		}
	}
}
