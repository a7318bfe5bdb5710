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

// amountBehind takes an amount off the front of what follows an item's name:
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
	a, after, err := p.Measures.ParseAmount(part)
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
