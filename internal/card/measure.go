package card

import (
	"slices"
	"strings"
	"unicode"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// Words that may stand between a figure and its unit. A unit of volume has no fixed size
// with any of loose.
var (
	sizeWords = []string{"small", "medium", "medium-sized", "large", "extra-large", "big", "thin", "thick", "fat", "long", "short", "fresh", "full", "whole", "level"}
	loose     = []string{"heaped", "heaping", "rounded", "scant", "generous", "good", "packed", "tightly", "firmly", "lightly", "loosely", "small", "medium", "large", "big", "full"}
)

// longSizes are sizes in short, as cooks write them.
var longSizes = map[string]string{
	"sm": "small", "sml": "small", "med": "medium", "medium-size": "medium", "medium-sized": "medium", "small-sized": "small", "large-sized": "large", "lg": "large", "lge": "large", "lrg": "large", "xl": "extra large",
}

// longSize writes out a short size at the front of the name of what is counted: "lg eggs".
func longSize(it *Item, name string) string {
	first, rest, more := strings.Cut(name, " ")
	long, ok := longSizes[strings.ToLower(strings.TrimSuffix(first, "."))]
	if !ok || !more || it.Amount.Unit != quantity.Each {
		return name
	}
	return long + " " + rest
}

// saysUnit reports whether words before an item's name are those that may stand between its
// figure and its name: "thin slice of".
func saysUnit(words []string) bool {
	unit := false
	for _, w := range words {
		switch u, ok := quantity.LookupUnit(w); {
		case ok && u != quantity.Each:
			unit = true
		case w != "of" && !saysSize(w):
			return false
		}
	}
	return unit
}

// fills reports whether a word is one of fillings.
func fills(word string) bool { return slices.Contains(fillings, strings.ToLower(word)) }

// saysSize reports whether a word may stand between a figure and its unit.
func saysSize(word string) bool {
	word = strings.ToLower(word)
	return slices.Contains(sizeWords, word) || slices.Contains(loose, word)
}

// fillings are the words of loose that may stand behind a unit: "1 cup packed sugar".
var fillings = []string{"heaped", "heaping", "rounded", "scant", "generous", "packed"}

// isFigure reports whether r is a digit, or a sign like ½.
func isFigure(r rune) bool { return unicode.IsNumber(r) }

// measure reads what is between the figure of an amount and the item's name, in a list
// and in a table alike: a size ("(28-oz)", "x 400 g"), a word of size and a unit behind it
// ("large cloves"). text begins at offset at. It returns the rest and what belongs to the
// preparation. named says that the item's name must follow.
func (p *parser) measure(it *Item, text string, at int, named bool) (rest string, prep []string) {
	rest = text
	for before := ""; rest != before && rest != ""; {
		before = rest
		rest = p.times(it, rest, at+len(text)-len(rest))
		if words, after := cutSizes(rest); len(words) > 0 && it.Amount.Unit == quantity.Each {
			if size := p.times(it, after, at+len(text)-len(after)); size != after || strings.HasPrefix(after, "(") { // "1 large (28-oz) can"
				prep, rest = append(prep, words...), size
			}
		}
		typed, after := p.sizeInBrackets(it, rest, at+len(text)-len(rest))
		prep, rest = append(prep, typed...), after
		rest = p.slashed(it, rest, at+len(text)-len(rest))
		words, after := p.sizeAndUnit(it, rest, at+len(text)-len(rest), named)
		prep, rest = append(prep, words...), after
	}
	return rest, prep
}

// sizeInBrackets reads a size in brackets at the front of text, and the unit behind it:
// "(28-oz) can". It returns a bracket that is no size, for the preparation, and the rest.
func (p *parser) sizeInBrackets(it *Item, text string, at int) (prep []string, rest string) {
	_, to, ok := bracket(text)
	if !ok || text[0] != '(' {
		return nil, text
	}
	typed, rest := text[:to], strings.TrimSpace(text[to:])
	if it.Amount.Unit == quantity.Each {
		rest = countedIn(it, rest)
	}
	if p.restate(it, typed, at, true) {
		return nil, rest
	}
	p.unreadAmount(it, typed, at)
	return []string{typed}, rest
}

// times reads a size that follows a count: "x 400 g tins tomatoes", "28-oz can tomatoes".
// text begins at offset at. Without "x" it must have a hyphen or a unit behind it: "1 500 g peas" may be 1500 g.
func (p *parser) times(it *Item, text string, at int) string {
	size, cross := document.CutAny(text, "x ", "× ", "X ", "×", "x", "X")
	if it.Amount.Unit != quantity.Each || !it.Amount.To.IsZero() || size == "" || !document.IsDigit(size[0]) {
		return text
	}
	each, rest, err := p.Measures.ParseAmount(size)
	if err != nil || !measured(each.Unit) || !each.To.IsZero() {
		return text
	}
	one := Item{Amount: each}
	rest = strings.TrimSpace(p.slashed(&one, rest, at+len(text)-len(rest))) // "400 g/14 oz tin"
	one = *it
	rest = countedIn(&one, rest)
	if hyphen := strings.IndexByte(size[:len(size)-len(rest)], '-') > 0; !cross && !hyphen && one.Amount.Unit == quantity.Each {
		return text
	}
	it.Amount.Unit, it.Each = one.Amount.Unit, each
	return rest
}

// slashed reads the same amount in another unit: "450 g / 1 lb butter". Of the two the metric
// one counts: it is the one that was weighed. It returns the rest.
func (p *parser) slashed(it *Item, text string, at int) string {
	again, ok := strings.CutPrefix(text, "/")
	if !ok || !measured(it.Amount.Unit) {
		return text
	}
	second, rest, err := p.Measures.ParseAmount(again)
	if err != nil {
		return text
	}
	typed := again[:len(again)-len(rest)]
	if first := it.Amount; measured(second.Unit) && second.Unit.Dim == first.Unit.Dim && second.Unit.System == quantity.Metric && first.Unit.System != quantity.Metric {
		it.Amount, typed, at = second, quantity.Written(first), at-1
	}
	if p.restate(it, typed, at+1, false) {
		return rest
	}
	return text
}

// countedIn takes the word for what is counted off the front of text: the can of "can
// tomatoes". It returns the rest.
func countedIn(it *Item, text string) string {
	a, rest, err := quantity.ParseAmount("1 " + text)
	if err != nil || a.Unit == nil || a.Unit.Dim != quantity.Count || a.Unit == quantity.Each {
		return text
	}
	it.Amount.Unit = a.Unit
	return rest
}

// sizeAndUnit reads words of size and the unit behind them, "large cloves", "heaped tsp",
// and what a cup is filled like, "packed". A measure of volume has no fixed size then: it is
// taken for a level one, with a problem. In a table, where named is false, the words may
// stand alone: "3 large".
func (p *parser) sizeAndUnit(it *Item, text string, at int, named bool) (prep []string, rest string) {
	prep, rest = cutSizes(text)
	if len(prep) == 0 {
		return nil, text
	}
	if it.Amount.Unit != quantity.Each {
		filled := it.Amount.Unit != nil && it.Amount.Unit.Dim == quantity.Volume && slices.ContainsFunc(prep, fills)
		switch {
		case filled:
			p.noFixedSize(it, prep, "", at)
		case named:
			return nil, text // "2 cups small pasta"
		}
		return prep, rest
	}
	a, name, err := p.Measures.ParseAmount("1 " + rest)
	switch {
	case err != nil && !named && rest == "":
		return prep, rest
	case err != nil || a.Unit == nil || a.Unit == quantity.Each || named && name == "":
		if !named {
			return prep, rest
		}
		return nil, text
	}
	it.Amount.Unit = a.Unit
	p.noFixedSize(it, prep, rest[:len(rest)-len(name)], at)
	return prep, name
}

// cutSizes takes the words of size off the front of a text.
func cutSizes(text string) (words []string, rest string) {
	for {
		word, more, _ := strings.Cut(text, " ")
		if !saysSize(word) {
			return words, text
		}
		words, text = append(words, word), strings.TrimSpace(more)
	}
}

// noFixedSize adds a problem for a measure of volume with a word that leaves open how much
// it holds.
func (p *parser) noFixedSize(it *Item, words []string, unit string, at int) {
	if it.Amount.Unit == nil || it.Amount.Unit.Dim != quantity.Volume {
		return
	}
	for _, word := range words {
		if slices.Contains(loose, strings.ToLower(word)) {
			it.Amount.About = true
			p.Warn(at, `"`+document.Clip(word+" "+unit)+`" has no fixed size: it is taken for a level measure`, "", "write a weight, or level measures")
			return
		}
	}
}

// unitBefore takes a unit off the front of a name in a table, where the amount is a bare
// figure, and returns the rest: "peas" of "bags of peas".
func (p *parser) unitBefore(it *Item, name string) string {
	a, rest, err := p.Measures.ParseAmount("1 " + name)
	if err != nil || a.Unit == nil || a.Unit == quantity.Each || rest == "" || !a.To.IsZero() || a.Qty.Cmp(quantity.Int(1)) != 0 {
		return name
	}
	it.Amount.Unit = a.Unit
	return strings.TrimPrefix(rest, "of ")
}
