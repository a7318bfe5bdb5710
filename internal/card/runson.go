package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// runsOn reports whether words that belong elsewhere run on in a fact, and adds the
// problem: a fact without its dash, a step without its number, a line without indent.
func (p *parser) runsOn(fact ast.Node) bool {
	if fact.Lines().Len() < 2 {
		return false
	}
	if p.misplaced(fact, 1) {
		return true
	}
	for i := 1; i < fact.Lines().Len(); i++ {
		if line := fact.Lines().At(i); line.Start > 0 && p.Body()[line.Start-1] == '\n' {
			p.Err(line.Start, `"`+document.Clip(string(line.Value(p.Body())))+`" is read as a part of the fact above it`, "", "begin a step with its number and a full stop, a fact with three spaces and a dash")
			return true
		}
	}
	return false
}

// misplaced adds a problem for each line of a block of words that is meant as a fact or
// as a step: Markdown made it a part of the words, because its dash, its number or its
// indent is wrong. skip is how many lines from the top are surely words.
func (p *parser) misplaced(n ast.Node, skip int) (found bool) {
	if n.Type() != ast.TypeBlock {
		return false
	}
	lines := n.Lines()
	for i := skip; i < lines.Len(); i++ {
		at := lines.At(i)
		line := strings.TrimSpace(string(at.Value(p.Body())))
		switch {
		case p.meantAsFact(line):
			p.Err(at.Start, `"`+document.Clip(line)+`" is read as words, not as a fact`, "", `begin the line with three spaces, a dash and a space: "   - hands: 10 min"`)
		case i > 0 && beginsStep(line):
			p.Err(at.Start, `"`+document.Clip(line)+`" is read as words of the step above it`, "", "begin the line with the number, without spaces before it")
		default:
			continue
		}
		found = true
	}
	return found
}

// meantAsFact reports whether a line of words is a fact but for what comes before it.
func (p *parser) meantAsFact(line string) bool {
	words := strings.TrimLeft(line, " -–—−*+•/|,.;:%#()[]°½¼¾&=0123456789")
	word, rest := p.leadingWord(words)
	if word == "" {
		return false
	}
	dash := words != line && strings.ContainsAny(line[:len(line)-len(words)], "-–—−*+•/|,.;:%#()[]°½¼¾&=")
	alone := rest == "" && words == line // "fridge" on a line of its own
	return strings.HasPrefix(strings.TrimLeft(rest, " "), ":") || alone || dash && (rest == "" || !verbs[word])
}

// beginsStep reports whether a line begins as a step does: "2. Colour the onions".
func beginsStep(line string) bool {
	digits := 0
	for digits < len(line) && document.IsDigit(line[digits]) {
		digits++
	}
	return digits > 0 && digits < 4 && len(line) > digits+1 && (line[digits] == '.' || line[digits] == ')') && line[digits+1] == ' '
}

// innerSteps adds a problem for a numbered list within a step that goes on counting
// from it, or has facts of its own: the next step, with spaces before its number.
func (p *parser) innerSteps(l *ast.List, number int) bool {
	if !l.IsOrdered() {
		return false
	}
	inner := l.Start == number+1
	for item := l.FirstChild(); item != nil && !inner; item = item.NextSibling() {
		for n := item.FirstChild(); n != nil; n = n.NextSibling() {
			facts, ok := n.(*ast.List)
			inner = inner || ok && p.looksLikeFacts(facts)
		}
	}
	if inner {
		p.Err(p.LineOf(l), "a step with spaces before its number is read as a part of the step above it", "", "take the spaces away")
	}
	return inner
}
