package card

import (
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
	name, prep := rest, ""
	if i := nameEnd(rest, block, p.File); i < len(rest) {
		name, prep = rest[:i], strings.TrimLeft(rest[i:], ", ")
	}
	var have []string
	name = strings.TrimSpace(name)
	p.sized(&it, &name)
	if strings.HasPrefix(name, "(") { // "500 g (about 4) onions"
		if i := strings.IndexByte(name, ')'); i > 0 {
			have, name = []string{name[:i+1]}, strings.TrimSpace(name[i+1:])
		}
	}
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
	p.nameItem(&it, block, name, nameAt)
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
	if !document.BeginsWithAmount(line) {
		for _, article := range [...]string{"a ", "an "} {
			if document.HasPrefixFold(line, article) { // "a pinch of salt"
				if a, rest, err := quantity.ParseAmount("1 " + line[len(article):]); err == nil && a.Unit != quantity.Each {
					it.Amount = a
					return rest, true
				}
			}
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

// nameEnd returns where the item's name ends: at the first comma that is not in
// the text of its link.
func nameEnd(s string, block ast.Node, d *document.File) int {
	from := 0
	if l := document.LinkIn(block); l != nil {
		if words, _ := d.Text(l); words != "" {
			if i := strings.Index(s, words); i >= 0 {
				from = i + len(words)
			}
		}
	}
	if i := strings.IndexByte(s[from:], ','); i >= 0 {
		return from + i
	}
	return len(s)
}

// misreadUnit warns of "500 gm onions", which reads as 500 pieces of "gm onions",
// and of figures that go on in the name.
func (p *parser) misreadUnit(it *Item, at int) {
	if it.Amount.Unit != quantity.Each || it.Name == "" {
		return
	}
	first, rest, more := strings.Cut(it.Name, " ")
	switch c := first[0]; {
	case document.IsDigit(c), (first == "x" || first == "×") && rest != "" && document.IsDigit(rest[0]):
		p.Warn(at, `"`+document.Clip(it.Name)+`" is read as the name of what is counted`, "", `write one amount, like "1500 g", or the size after a comma: "2 tins tomatoes, each 400 g"`)
		return
	case c < 0x80 && !document.IsWordRune(rune(c)) && strings.IndexByte("([\"'", c) < 0, strings.HasPrefix(it.Name, "°"):
		p.Err(at, `"`+document.Clip(it.Name)+`" goes on like a figure and is none`, "", `write one figure and its unit, like "1.25 kg"`)
		return
	}
	if !more || utf8.RuneCountInString(first) > 6 || ordinary[first] {
		return
	}
	if _, food := p.card.Foods.Find(it.Name); food {
		return // "2 bay leaves": no slip of "bag"
	}
	if hint := quantity.SuggestUnit(first); hint != "" {
		p.Warn(at, `"`+first+`" is read as part of the item's name, not as a unit`, hint, "")
	} else if len(first) <= 4 && strings.Trim(first, "bcdfghjklmnpqrstvwxz") == "" {
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
