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

// ofFruit reads what is taken of a fruit, "juice of 1 lemon", "grated zest of 2 limes", as so
// many of the fruit. It returns the fruit, with what is taken of it behind a comma. ok is
// false for other lines.
func (p *parser) ofFruit(it *Item, line string) (rest string, ok bool) {
	taken, fruit, ok := cutFold(line, " of ")
	if !ok || !saysTaken(taken) {
		return "", false
	}
	a, name, err := p.Measures.ParseAmount(fruit)
	if err != nil || a.Unit != quantity.Each || name == "" {
		return "", false
	}
	it.Amount = a
	name, prep, _ := strings.Cut(name, ",")
	rest = name + ", " + strings.TrimPrefix(taken, "the ")
	if prep = strings.TrimSpace(prep); prep != "" {
		rest += ", " + prep
	}
	return rest, true
}

// cutFold cuts s around the first separator of ASCII in either case.
func cutFold(s, sep string) (before, after string, ok bool) {
	for i := 0; i+len(sep) <= len(s); i++ {
		if strings.EqualFold(s[i:i+len(sep)], sep) {
			return s[:i], s[i+len(sep):], true
		}
	}
	return s, "", false
}

// saysTaken reports whether words say that juice or peel is taken of a fruit: "the finely
// grated zest and juice".
func saysTaken(s string) bool {
	taken := false
	for _, w := range strings.Fields(strings.ToLower(s)) {
		switch w {
		case "juice", "zest", "rind", "peel":
			taken = true
		case "the", "finely", "freshly", "coarsely", "thinly", "grated", "pared", "squeezed", "strained", "and", "&", "only":
		default:
			return false
		}
	}
	return taken
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
