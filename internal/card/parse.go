package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"
	east "github.com/yuin/goldmark/extension/ast"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// Parse reads a card. File is its name, for the card's ID and the problems. The
// card is never nil and holds what could be read; src is kept, not copied.
func Parse(file string, src []byte) (*Card, []document.Problem) { return ParseWith(file, src, nil) }

// ParseFor reads a card as [Parse] does, its items by a kitchen's own foods, and by a
// kitchen's rules ("us", "uk", "" for none) where the card names none.
func ParseFor(file string, src []byte, foods *larder.Foods, rules string) (*Card, []document.Problem) {
	return parse(file, src, nil, foods, rules)
}

// ParseWith reads a card for a kitchen that has more than the standard list of
// equipment. Extra is that equipment. When it is given, a word that is neither a
// fact nor known equipment is an error; otherwise such a word is taken for
// equipment, with a warning.
func ParseWith(file string, src []byte, extra []string) (*Card, []document.Problem) {
	return parse(file, src, extra, nil, "")
}

func parse(file string, src []byte, extra []string, foods *larder.Foods, rules string) (*Card, []document.Problem) {
	p := &parser{File: document.Open(file, src), extra: extra}
	p.card = &Card{ID: document.ID(file), File: file, Source: src, Foods: foods, Rules: rules}
	p.MeasureBy(quantity.MeasuresOf(rules))
	p.runs, p.words, p.bolds = p.roomForRuns[:0], p.roomForWords[:0], p.roomForBolds[:0]
	p.front()
	p.blocks()
	p.finish()
	p.card.Notes = strings.Join(p.notes, "\n\n")
	return p.card, p.Done()
}

// parser reads one card. Methods are in the file of what they read: front.go,
// formula.go, method.go, stepfacts.go, saves.go, service.go, faults.go, corrective.go.
type parser struct {
	*document.File
	card  *Card
	extra []string

	sparesAt int    // where "spares" is
	makesAt  int    // where "makes" is, for problems found later
	lines    []line // of "## Faults" and "## Corrective action", checked once the steps are known

	pictured     bool // the plate has its picture
	correctiveAt int  // where the heading "## Corrective action" is

	items   []naming // beside card.Items: how steps may name each
	bolds   []bold   // bold words of all steps, matched when the formula is known
	befores []before // "saves" and "after" facts, checked once everything is known
	method  methodState

	unnumbered bool            // a step without a list's number has a problem
	amountless bool            // in a table without amounts, which has a problem of its own
	seen       [notes + 1]bool // whether the card has the section, by section
	crowded    map[string]bool // kinds of parts that are over their bound
	notes      []string        // for card.Notes

	runs  []Run // memory that each step uses in turn
	words []byte
	had   []string

	// The memory that most cards need for the above, allocated at once.
	roomForRuns  [8]Run
	roomForWords [256]byte
	roomForBolds [16]bold
}

// section is a part of the card.
type section uint8

const (
	top        section = iota // title and introduction
	formula                   // ## Formula
	method                    // ## Method
	saves                     // ## Saves
	service                   // ## Service
	faults                    // ## Faults
	corrective                // ## Corrective action
	notes                     // any other heading
)

// sectionOf returns the section that a heading begins. Other usual headings
// count too.
func sectionOf(heading string) section {
	switch strings.ToLower(strings.TrimRight(strings.TrimSpace(heading), ":")) {
	case "formula", "ingredients", "items":
		return formula
	case "method", "directions", "steps", "instructions", "procedure":
		return method
	case "saves", "by-products", "byproducts":
		return saves
	case "service":
		return service
	case "faults", "common faults":
		return faults
	case "corrective action", "corrective actions":
		return corrective
	}
	return notes
}

// misspelt warns of a heading that is one letter from a section whose lines are shown at
// the stove: what is below it would only be a note.
func (p *parser) misspelt(heading string, at int) {
	low := strings.ToLower(strings.TrimRight(heading, " :"))
	for _, name := range [...]string{"Service", "Faults", "Corrective action"} {
		if quantity.Distance(low, strings.ToLower(name), 1) <= 1 {
			p.Warn(at, `"`+heading+`" is read as a note`, name, "")
		}
	}
}

// blocks reads the blocks of the page from top to bottom.
func (p *parser) blocks() {
	now, group := top, ""
	introAt, notesAt := -1, -1
	for n := p.Root.FirstChild(); n != nil; n = n.NextSibling() {
		h, isHeading := n.(*ast.Heading)
		if isHeading {
			at := p.LineOf(h)
			words, wordsAt := p.Text(h)
			words = strings.TrimSpace(words)
			if wordsAt < 0 {
				wordsAt = at
			}
			kind := sectionOf(words)
			opens := kind != notes || h.Level <= 2
			switch {
			case p.card.Title == "" && now == top && kind == notes:
				p.card.Title = words
				introAt = -1
				continue
			case opens:
				if now == top && introAt >= 0 {
					p.card.Intro = p.between(introAt, at)
				}
				if now == notes && notesAt >= 0 && kind != notes {
					p.addNotes(notesAt, at)
					notesAt = -1
				}
				if now != notes && kind == notes {
					notesAt = at
				}
				now, group = kind, ""
				if kind == notes {
					p.misspelt(words, wordsAt)
				}
				if kind == corrective && !p.seen[kind] {
					p.correctiveAt = wordsAt
				}
				if kind != notes {
					if p.seen[kind] && kind != formula {
						p.Warn(wordsAt, `a second section "`+words+`"`, "", "it is read as if it went on from the first")
					}
					p.seen[kind] = true
				}
				continue
			case now == formula:
				group = strings.TrimRight(words, ":")
			case now == method:
				p.methodHeading(words, wordsAt)
			case now == service || now == faults || now == corrective:
				p.NotRead(h)
			}
			continue
		}
		switch now {
		case top:
			if _, isTable := n.(*east.Table); isTable {
				p.formulaTable(n.(*east.Table), "")
				continue
			}
			if l, isList := n.(*ast.List); isList && l.IsOrdered() {
				p.steps(l)
				continue
			}
			if introAt < 0 {
				introAt = p.LineOf(n)
			}
		case formula:
			p.formulaBlock(n, group)
		case method:
			p.methodBlock(n)
		case saves:
			p.savesBlock(n)
		case service:
			p.serviceBlock(n)
		case faults:
			p.faultsBlock(n)
		case corrective:
			p.correctiveBlock(n)
		}
	}
	if now == top && introAt >= 0 {
		p.card.Intro = p.between(introAt, len(p.Body()))
	}
	if now == notes && notesAt >= 0 {
		p.addNotes(notesAt, len(p.Body()))
	}
}

// between returns the Markdown of a piece of the page as typed.
func (p *parser) between(from, to int) string {
	if from >= to {
		return ""
	}
	return strings.TrimSpace(document.Valid(string(p.Body()[from:to])))
}

// addNotes keeps a piece of the page for the reader.
func (p *parser) addNotes(from, to int) {
	if more := p.between(from, to); more != "" {
		p.notes = append(p.notes, more)
	}
}
