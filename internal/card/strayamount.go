package card

import (
	"slices"
	"strings"
	"unicode"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// unread are measures that have no unit in the table, because their size is not the same
// everywhere.
var unread = []string{"gill", "gills", "shot", "shots", "jigger", "jiggers", "tot", "tots", "dram", "drams", "nip", "nips", "stone", "dessertspoon", "dessertspoons", "dsp",
	"el", "esslöffel", "tl", "teelöffel", "msp", "messerspitze", "prise", "prisen", "pck", "päckchen", "bund", "becher", "tasse", "tassen", "dose", "dosen", "zehe", "zehen", "würfel", "stück", "scheibe", "scheiben",
	"spoon", "spoons", "spoonful", "spoonfuls", "ladle", "ladles", "ladleful", "glug", "glugs", "mug", "mugs", "teacup", "teacups", "wineglass", "wineglasses", "peck", "bushel"}

// containers are what a weight before them is the content of: "400 g tin tomatoes".
var containers = []string{"can", "tin", "jar", "packet", "bag", "bottle", "box", "punnet", "carton", "tub", "sachet"}

// afterHead are words that may follow the noun of a name: "bass fillets from the tail".
var afterHead = []string{"from", "in", "with", "without", "on", "for", "off", "at", "and", "or"}

// strayAmount adds a problem for what is meant as an amount and is in the name of an
// item: a second item ("flour 50g sugar"), a figure, a unit. name begins at offset at and
// has no brackets with figures. What the food table has by this name, and the words of a
// link, are names.
func (p *parser) strayAmount(it *Item, name string, at int) {
	if len(p.Problems) > 0 && p.faultyLine(p.Place(at).Line) || strings.HasPrefix(name, "/") || strings.HasPrefix(name, "+") {
		return // a sign at the front has its own problem
	}
	if p.noName(it, name, at) {
		return
	}
	if i, ok := secondItem(name); ok {
		p.Err(at+i, `"`+document.Clip(name[i:])+`" is read as part of the name of the item before it`, "", `begin a line of its own with it: "- `+document.Clip(name[i:])+`"`)
		return
	}
	if p.isFood(name) {
		return
	}
	fields := nameWords(name)
	for i, w := range fields {
		switch {
		case strings.ContainsFunc(w.text, isFigure):
			if w.isName(i, it, fields) {
				continue
			}
			p.Err(at+w.at, `"`+document.Clip(name[w.at:])+`" is part of the item's name`, "", `write one amount, like "1500 g", or the size after a comma: "2 tins tomatoes, each 400 g"`)
			return
		case i == 0 && it.Amount.Unit == quantity.Each && slices.Contains(unread, strings.ToLower(w.text)):
			p.Err(at+w.at, `"`+w.text+`" is a measure that is not read`, "", `write ml, tsp, tbsp, cups or a weight, or a word for what is counted, like "2 bunches"`)
			return
		default:
			if p.strayUnit(it, name, at, fields, i) {
				return
			}
		}
	}
}

// noName reports whether what follows an amount is no name, and adds its problem: "20 g for
// the tin", "1 cup minus 2 tbsp flour".
func (p *parser) noName(it *Item, name string, at int) bool {
	if it.Amount.Unit == nil || it.Card != "" {
		return false
	}
	first, _, _ := strings.Cut(strings.ToLower(name), " ")
	switch first {
	case "minus", "less":
		p.Err(at, `"`+document.Clip(name)+`" is not taken off the amount before it`, "", `write how much goes in, like "150 g flour"`)
	case "for", "to", "plus", "and", "or", "more":
		p.Err(at, `"`+document.Clip(name)+`" does not say what the item is`, "", `write its name behind the amount, like "20 g butter, for the tin"`)
	default:
		return false
	}
	return true
}

// strayUnit adds a problem for a word of a name that is a unit. A word for what is counted
// may be the noun of a name ("4 salmon fillets"), and stand in the name of what is weighed
// or measured.
func (p *parser) strayUnit(it *Item, name string, at int, fields []nameWord, i int) bool {
	w := fields[i]
	u, ok := quantity.LookupUnit(w.text)
	low := strings.ToLower(w.text)
	dozen := slices.Contains([]string{"dozen", "dozens", "doz", "pair", "pairs", "brace"}, low)
	if !dozen && (!ok || u == quantity.Each || low == "in") || it.Amount.Unit == nil {
		return false
	}
	counted := ok && u.Dim == quantity.Count
	bare := it.Amount.Unit == quantity.Each
	switch head := i == len(fields)-1 || slices.Contains(afterHead, strings.ToLower(fields[i+1].text)); {
	case counted && measured(it.Amount.Unit) && i == 0 && slices.Contains(containers, u.Name) && len(fields) > 1:
		p.Err(at+w.at, `"`+w.text+`" is part of the item's name`, "", `write it like "1 `+u.Name+" "+document.Clip(name[fields[1].at:])+", each "+quantity.Written(it.Amount)+`"`)
	case counted && i == 0 && it.Amount.Unit.Dim == quantity.Length:
		p.Err(at+w.at, `"`+w.text+`" is part of the item's name, and a length has no weight`, "", `write it like "1 `+u.Name+` ginger, each 20 g"`)
	case counted && (head || !bare):
		return false
	case counted:
		p.Warn(at+w.at, `"`+w.text+`" is part of the item's name`, "", unitFirst(it, name, w))
	case bare:
		p.Err(at+w.at, `"`+w.text+`" is part of the item's name, so its figure counts pieces`, "", unitFirst(it, name, w))
	default:
		p.Warn(at+w.at, `"`+w.text+`" is part of the item's name`, "", "write one amount, and what else there is to say behind a comma")
	}
	return true
}

// unitFirst returns what to type where a unit is within a name: "6 squat cups oats" is
// "6 cups oats, squat".
func unitFirst(it *Item, name string, w nameWord) string {
	rest := strings.TrimSpace(strings.TrimLeft(name[w.at+len(w.text):], ". "))
	before := strings.TrimSpace(name[:w.at])
	typed := quantity.Written(it.Amount) + " " + w.text
	if rest == "" {
		rest, before = before, ""
	}
	if typed += " " + rest; before != "" {
		typed += ", " + before
	}
	return `write the unit right behind its figure, like "` + document.Clip(typed) + `"`
}

// secondItem returns where a second item begins in a name: "100g flour 50g sugar", "2 eggs
// plus a yolk", "1 onion and a carrot".
func secondItem(name string) (at int, ok bool) {
	low := strings.ToLower(name)
	for _, join := range [...]string{" plus ", " + ", " and a ", " and an ", "; "} {
		if i := strings.Index(low, join); i > 0 && len(low) == len(name) {
			at := i + len(join)
			if strings.HasPrefix(join, " and a") {
				at = i + len(" and ")
			}
			return at, true
		}
	}
	for i, r := range name {
		if i == 0 || !isFigure(r) || name[i-1] != ' ' {
			continue
		}
		if !strings.ContainsFunc(strings.TrimRight(name[:i], " "), unicode.IsLetter) || connects(name[:i]) {
			return 0, false // "3- to 4-lb chicken"
		}
		a, rest, err := quantity.ParseAmount(name[i:])
		return i, err == nil && rest != "" && (a.Unit != quantity.Each || strings.IndexByte(rest, '%') < 0) && !strings.HasPrefix(rest, "-")
	}
	return 0, false
}

// connects reports whether the last word before a figure joins it to what comes before
// that, so that no item begins there.
func connects(before string) bool {
	words := strings.Fields(before)
	return slices.Contains([]string{"to", "or", "x", "×", "a", "an", "of"}, strings.ToLower(words[len(words)-1]))
}

// A nameWord is a word of a name and its offset there.
type nameWord struct {
	text string
	at   int
}

// nameWords returns the words of a name between spaces, without the signs around them and
// without what is in brackets.
func nameWords(name string) []nameWord {
	var out []nameWord
	depth := 0
	for at := 0; at < len(name); {
		end := at + 1
		for end < len(name) && name[end] != ' ' {
			end++
		}
		word := name[at:end]
		inside := depth > 0 || strings.HasPrefix(word, "(")
		depth += strings.Count(word, "(") - strings.Count(word, ")")
		if text := strings.Trim(word, " .,;:\"'"); text != "" && !inside {
			out = append(out, nameWord{text, at + strings.Index(word, text)})
		}
		at = end
	}
	return out
}

// isName reports whether a word with a figure is surely no amount: "00" flour, "5-spice"
// powder, the share of "70 % chocolate" behind an amount.
func (w nameWord) isName(i int, it *Item, fields []nameWord) bool {
	digits := strings.TrimLeft(w.text, "0123456789")
	figure := w.text[:len(w.text)-len(digits)]
	if i == 0 && it.Amount.Unit != nil && (digits == "%" || digits == "" && len(fields) > 1 && fields[1].text == "%") {
		return true
	}
	if tail, ok := strings.CutPrefix(digits, "-"); ok && figure != "" && tail != "" && !strings.ContainsFunc(tail, isFigure) {
		first, _, _ := strings.Cut(tail, "-")
		_, unit := quantity.LookupUnit(first)
		return !unit
	}
	return digits == "" && strings.Trim(figure, "0") == ""
}
