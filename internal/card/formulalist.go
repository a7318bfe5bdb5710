package card

import (
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// listItem reads "500 g onions, unpeeled, quartered".
func (p *parser) listItem(block ast.Node, group string) {
	line, at := p.Text(block)
	line = strings.TrimRight(line, " ")
	if strings.TrimSpace(line) == "" || at < 0 {
		return
	}
	p.joined(block)
	it := Item{Group: group, Pos: p.Place(at)}
	rest, ok := p.leading(&it, line, at)
	if !ok {
		rest = afterFigure(line) // the amount has a problem; the name is still useful
	}
	rest = besideAmount(&it, rest)
	name, prep := cutName(rest, block, p.File)
	name, have := p.measure(&it, strings.TrimSpace(name), at+max(0, strings.Index(line, strings.TrimSpace(name))), true)
	name = strings.TrimPrefix(name, "of ")
	if it.Amount.Unit == nil && it.Percent.IsZero() {
		name = toTaste(&it, p.trailing(&it, name, at))
	}
	if it.Amount.Unit == nil && it.Percent.IsZero() {
		prep = p.amountBehind(&it, prep, at+len(line)-len(prep))
	}
	if name == "" {
		if ok {
			p.Err(at, "an amount without an item", "", "write the item's name after it")
		}
		return
	}
	nameAt := min(at+max(0, strings.Index(line, name)), len(p.Body()))
	have = append(have, p.nameItem(&it, block, name, nameAt)...)
	it.Pos = p.Place(nameAt)
	p.misreadUnit(&it, nameAt)
	p.prep(&it, have, prep, min(at+max(0, len(line)-len(prep)), len(p.Body())))
	p.addItem(it, nameAt)
}

// leading takes the amount or percentage off the front of a line.
func (p *parser) leading(it *Item, line string, at int) (rest string, ok bool) {
	if i := strings.IndexByte(line, '%'); i > 0 && i < 12 && document.IsDigit(line[0]) {
		if n, ok := document.Number(line[:i]); ok && n.Sign() > 0 {
			it.Percent = n
			return strings.TrimSpace(line[i+1:]), true
		}
	}
	if fruit, ok := p.ofFruit(it, line); ok {
		return fruit, true
	}
	if !document.BeginsWithAmount(line) {
		if name, _, _ := strings.Cut(line, ","); p.isFood(name) {
			return line, true // "five spice powder"
		}
		if a, rest, err := p.Measures.ParseAmount(line); err == nil && a.Unit != nil { // "a dozen eggs", "half a lemon"
			it.Amount = a
			return rest, true
		}
		return line, true
	}
	a, rest, ok := p.Amount(line, at)
	if !ok {
		return "", false
	}
	it.Amount = a
	return rest, true
}

// besideAmount takes the percentage in brackets out of "pork belly (100 %), skinned"
// where an amount was read before it.
func besideAmount(it *Item, rest string) string {
	open := strings.IndexByte(rest, '(')
	end := strings.IndexByte(rest, ')')
	if it.Amount.Unit == nil || open < 0 || end < open {
		return rest
	}
	n, ok := document.Percent(strings.TrimSpace(rest[open+1 : end]))
	if !ok || n.Sign() <= 0 {
		return rest
	}
	it.Percent = n
	return strings.TrimRight(rest[:open], " ") + rest[end+1:]
}

// trailing reads "onions: 500 g", which is how facts are typed.
func (p *parser) trailing(it *Item, name string, at int) string {
	head, tail, ok := strings.Cut(name, ":")
	if !ok || strings.TrimSpace(tail) == "" {
		return strings.TrimSuffix(name, ":")
	}
	tail = strings.TrimSpace(tail)
	if n, ok := document.Percent(tail); ok && n.Sign() > 0 {
		it.Percent = n
	} else {
		it.Amount = p.positive(document.Fact{Word: head, Value: tail, ValueAt: min(at+len(head)+1, len(p.Body()))})
	}
	return strings.TrimSpace(head)
}

// isFood reports whether a name is that of one food, as the table has it.
func (p *parser) isFood(name string) bool {
	_, ok := p.card.Foods.Find(strings.TrimSpace(name))
	return ok
}

// cutName parts an item's name from its preparation. Words that only describe are no name:
// "boneless, skinless chicken breasts" is one.
func cutName(s string, block ast.Node, d *document.File) (name, prep string) {
	end := nameEnd(s, block, d)
	name, prep = s[:end], strings.TrimLeft(s[end:], ",; ")
	for describes(name) && prep != "" {
		end := nameEnd(prep, block, d)
		name, prep = strings.TrimSpace(name)+" "+prep[:end], strings.TrimLeft(prep[end:], ",; ")
	}
	return name, prep
}

// describing are words that say what an item is like and not what it is.
var describing = words("boneless bone-in skinless skin-on fresh freshly ripe firm raw uncooked frozen dried dry cold warm chilled unsalted salted lean free-range organic good young tender plump " +
	"small medium large big whole thin thick long short soft hard peeled unpeeled cooked roasted toasted smoked chopped sliced grated finely coarsely full-fat low-fat light dark mild strong")

// describes reports whether a name has describing words alone.
func describes(name string) bool {
	list := strings.Fields(strings.ToLower(name))
	for _, w := range list {
		if !slices.Contains(describing, w) {
			return false
		}
	}
	return len(list) > 0
}

// nameEnd returns where the item's name ends: at the first comma or semicolon that is not
// in brackets or in the text of its link.
func nameEnd(s string, block ast.Node, d *document.File) int {
	from := 0
	if l := document.LinkIn(block); l != nil {
		if words, _ := d.Text(l); words != "" {
			if i := strings.Index(s, words); i >= 0 {
				from = i + len(words)
			}
		}
	}
	depth := 0
	for i := from; i < len(s); i++ {
		switch s[i] {
		case '(':
			depth++
		case ')':
			depth--
		case ',', ';':
			if depth <= 0 || !strings.Contains(s[i:], ")") {
				return i
			}
		}
	}
	return len(s)
}

// misreadUnit adds the problem of a name that begins like a unit that is not known: "500
// gm onions" reads as 500 pieces of "gm onions".
func (p *parser) misreadUnit(it *Item, at int) {
	if it.Amount.Unit == nil || it.Name == "" || it.Card != "" || len(p.Problems) > 0 && p.faultyLine(p.Place(at).Line) {
		return
	}
	name := it.Name
	if _, after := cutSizes(name); after != "" {
		name = after // "heaped tabelspoon sugar"
	}
	first, _, more := strings.Cut(name, " ")
	if c := it.Name[0]; c < 0x80 && !document.IsWordRune(rune(c)) && strings.IndexByte("([\"'", c) < 0 || strings.HasPrefix(it.Name, "°") {
		p.Err(at, `"`+document.Clip(it.Name)+`" goes on like a figure and is none`, "", `write one figure and its unit, like "1.25 kg"`)
		return
	}
	if it.Amount.Unit.Dim == quantity.Length && !strings.HasSuffix(it.Name, " stick") && !strings.HasSuffix(it.Name, " sticks") {
		p.Warn(at, `"`+quantity.Written(it.Amount)+" "+document.Clip(it.Name)+`" is a length, and what it weighs is not known`, "", `write its weight, or "1 piece `+document.Clip(it.Name)+`, each 20 g"`)
		return
	}
	if it.Amount.Unit != quantity.Each {
		return
	}
	if !more || ordinary[first] || saysSize(first) || p.isFood(it.Name) { // "2 bay leaves": no slip of "bag"
		return
	}
	hint := quantity.SuggestUnit(first)
	u, _ := quantity.LookupUnit(hint)
	switch long := utf8.RuneCountInString(first); {
	case hint != "" && measured(u) && long > 4:
		p.Err(at, `"`+document.Clip(first)+`" is no unit, so its figure counts pieces`, hint, "")
	case long > 6: // most names
	case hint != "":
		p.Warn(at, `"`+first+`" is read as part of the item's name, not as a unit`, hint, "")
	case len(first) <= 4 && strings.Trim(first, "bcdfghjklmnpqrstvwxz") == "":
		p.Warn(at, `"`+first+`" is not a known unit; it is read as part of the item's name`, "", doUnit)
	}
}

// ordinary are words that stand before what is counted and are one letter off
// the name of a unit.
var ordinary = map[string]bool{
	"bass": true, "bell": true, "big": true, "cod": true, "ground": true, "lean": true, "mint": true, "olives": true, "pink": true, "sweet": true, "thin": true,
}

// doUnit is what to do where no known unit is near.
const doUnit = `write g, kg, ml, L, or a word for what is counted, like "cloves"`

// afterFigure returns a line without the figure and unit at its front, which have
// a problem.
func afterFigure(line string) string {
	rest := strings.TrimLeft(line, figures)
	if len(rest) > 1 && (rest[0] == 'e' || rest[0] == 'E') && document.IsDigit(rest[1]) {
		rest = strings.TrimLeft(rest[1:], figures) // "1e9"
	}
	if _, name, err := quantity.ParseAmount("1 " + rest); err == nil && name != "" {
		return name
	}
	return rest
}

// figures are what an amount is written with, space included.
const figures = "0123456789.,/-–−+~½¼¾⅓⅔ "
