package card

import (
	"strings"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// toTaste takes "to taste" off the end of an item's name without an amount: "salt to
// taste". It returns the name.
func toTaste(it *Item, name string) string {
	name = strings.TrimSpace(name)
	for _, words := range [...]string{" to taste", " as needed"} {
		if n := len(name) - len(words); n > 0 && strings.EqualFold(name[n:], words) {
			it.Amount = quantity.Amount{ToTaste: true}
			return strings.TrimRight(name[:n], " ,")
		}
	}
	return name
}

// amountBehind takes an amount off the front of what stands behind an item's name:
// "butter, 100 g, soft". prep begins at offset at. It returns the rest.
func (p *parser) amountBehind(it *Item, prep string, at int) string {
	part, rest := prep, ""
	done := false
	document.SplitList(prep, at, func(one string, oneAt int) {
		if !done {
			done, part = true, one
			rest = strings.TrimLeft(prep[min(len(prep), oneAt-at+len(one)):], ",; ")
		}
	})
	if part == "" || !document.IsDigit(part[0]) {
		return prep
	}
	a, after, err := quantity.ParseAmount(part)
	if doubtful(err) {
		p.Amount(part, at)
		return rest
	}
	if _, degrees := document.Temperature(part); degrees || err != nil || after != "" || a.Unit == nil || a.Unit.Dim == quantity.Length {
		return prep
	}
	it.Amount = a
	return rest
}

// sized reads a size in brackets and the pack it is of: "1 (14 oz) can tomatoes" is one
// can that holds 14 oz. text begins behind the count and is left at what follows.
func (p *parser) sized(it *Item, text *string) {
	size, rest, ok := strings.Cut(strings.TrimPrefix(*text, "("), ")")
	if it.Amount.Unit != quantity.Each || !ok || !strings.HasPrefix(*text, "(") {
		return
	}
	each, after, err := quantity.ParseAmount(size)
	if err != nil || after != "" || each.Unit.Dim != quantity.Mass && each.Unit.Dim != quantity.Volume {
		return
	}
	word, name, _ := strings.Cut(strings.TrimSpace(rest), " ")
	unit, known := quantity.LookupUnit(word)
	if !known || unit.Dim != quantity.Count {
		return
	}
	it.Amount.Unit, it.Each = unit, each
	*text = strings.TrimSpace(name)
}
