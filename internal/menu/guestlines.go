package menu

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// guestBlock reads a block below the heading of the guests: a list with a group on
// each item, or a paragraph with a group on each line.
func (p *parser) guestBlock(n ast.Node) {
	switch n := n.(type) {
	case *ast.List:
		for item := n.FirstChild(); item != nil; item = item.NextSibling() {
			if first := item.FirstChild(); first != nil {
				if f, ok := p.ItemFact(item); ok && p.guests(f) {
					p.readLines(first)
				} else if ok {
					p.readLine(first.Lines().At(0).Start)
				}
			}
		}
	case *ast.Paragraph:
		p.readLines(n)
		for i := range n.Lines().Len() {
			s := n.Lines().At(i)
			p.guests(document.LineFact(strings.TrimRight(string(s.Value(p.Body())), " \t\r\n"), s.Start))
		}
	}
}

// guests reads a group, "2 covers: no fish, no gluten (by the door)". It reports whether
// the line begins as a group does.
func (p *parser) guests(f document.Fact) bool {
	g := Guests{Pos: p.Place(f.At)}
	count, unit, _ := strings.Cut(f.Word, " ")
	n, err := strconv.Atoi(count)
	switch strings.TrimSpace(unit) {
	case "cover", "covers", "guest", "guests", "":
	default:
		err = strconv.ErrSyntax
	}
	if err != nil || n < 1 || n > MaxCovers {
		p.Err(f.At, "the line does not begin with a number of guests", "", `write it like "2 covers: no fish"`)
		p.notChecked(document.Valid(strings.TrimPrefix(f.Word+": ", ": ")+f.Value), f.At)
		return false
	}
	g.Covers = n
	var notes []note
	f.Split(func(part string, at int) { notes = append(notes, p.avoided(&g, part, at)...) })
	for _, n := range notes {
		p.checkNote(&g, n)
	}
	if len(g.Exclude)+len(g.NotChecked) == 0 {
		p.Err(f.ValueAt, "the line does not say what these guests can't have", "", `write it like "2 covers: no fish"`)
	}
	p.menu.Guests = append(p.menu.Guests, g)
	return true
}

// avoided reads one part of a group, "nut allergy (severe)". What is in brackets is
// returned: it is a note.
func (p *parser) avoided(g *Guests, part string, at int) []note {
	words, notes, ok := cutNotes(part, at)
	if !ok {
		p.Err(at, `"`+document.Clip(part)+`" has a bracket without its other, and is not checked`, "", "close the bracket, or take it out")
		p.unchecked(g, part)
		return nil
	}
	if words == "" {
		return notes
	}
	if ex, ok := p.excluded(words, at); ok {
		g.Exclude = append(g.Exclude, ex...)
	} else {
		p.unchecked(g, words)
	}
	return notes
}

// A note is the text of one pair of brackets.
type note struct {
	text string
	at   int
}

// cutNotes takes what is in brackets out of a part that begins at an offset. ok is
// false where a bracket has no other.
func cutNotes(part string, at int) (words string, notes []note, ok bool) {
	var out strings.Builder
	depth, open := 0, 0
	for i := range len(part) {
		switch c := part[i]; {
		case c == '(':
			if depth++; depth == 1 {
				open = i + 1
				out.WriteByte(' ')
			}
		case c == ')':
			if depth--; depth < 0 {
				return "", nil, false
			}
			if text := strings.TrimSpace(part[open:i]); depth == 0 && text != "" {
				notes = append(notes, note{text, at + open})
			}
		case depth == 0:
			out.WriteByte(c)
		}
	}
	return strings.Join(strings.Fields(out.String()), " "), notes, depth == 0
}

// checkNote keeps a note of a group. A note that says what guests can't have is an error,
// unless the group is kept from it anyway: notes are not checked.
func (p *parser) checkNote(g *Guests, n note) {
	if g.Note != "" {
		g.Note += "; "
	}
	g.Note += document.Valid(n.text)
	document.SplitList(n.text, n.at, func(part string, at int) {
		said, ok := p.menu.Foods.Understand(part)
		if first, _ := utf8.DecodeRuneInString(part); !ok || unicode.IsUpper(first) && len(said.Allergens)+len(said.Animals) == 0 && strings.EqualFold(said.Words, part) {
			return // "severe"; "Basil" is a guest's name
		}
		for _, word := range g.Exclude {
			if a, ok := p.menu.Foods.Understand(word); ok && a.Covers(said) {
				return // "no shellfish (prawns)"
			}
		}
		p.Err(at, `"`+part+`" in brackets is a note, and is not checked`, "", `take the brackets away, with a comma before it`)
		p.unchecked(g, part)
	})
}

// excluded reads what some guests can't have, as they say it ("no fish", "coeliac", "nut
// allergy", "nuts and milk"), and returns the words of each without "no" and the like. Words
// that mean nothing to the food table are an error: nothing would be checked.
func (p *parser) excluded(part string, at int) (words []string, ok bool) {
	words, ok = p.menu.Foods.Exclusions(part)
	if rest, no := document.CutAny(part, "no "); !ok && no && p.form {
		words, ok = p.menu.Foods.Exclusions(rest) // "no nut allergy": an earlier form wrote "no" before everything
	}
	if p.Full() {
		return words, ok
	}
	before := len(p.Problems)
	switch why := p.menu.Foods.WhyUnchecked(part); {
	case !ok && why != "":
		p.Err(at, `not checked: "`+part+`"`, "", why)
	case !ok:
		p.Err(at, `not checked: "`+part+`" is no allergen, diet or food that is known`, p.menu.Foods.Suggest(part), `write an allergen ("no nuts"), a diet ("vegan") or a food, and ask the guest again`)
	}
	for _, word := range words {
		if rest := p.menu.Foods.NotChecked(word); rest != "" {
			p.Warn(at, "not checked: "+rest, "", "ask the guest")
		}
	}
	for i := range p.Problems[before:] {
		p.Problems[before+i].Guests = true
	}
	return words, ok
}

// unchecked keeps words of a group that are not understood. Where no more problems are
// told, the group's first is enough to show that it was not checked whole.
func (p *parser) unchecked(g *Guests, words string) {
	if len(g.NotChecked) == 0 || !p.Full() {
		g.NotChecked = append(g.NotChecked, words)
	}
}
