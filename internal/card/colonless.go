package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// verbs are fact words and equipment that a sentence may begin with: "check the
// seasoning". A line that begins with one and has no colon is meant as a fact only
// when what follows is what the fact takes.
var verbs = map[string]bool{
	"check": true, "keep": true, "serve": true, "wait": true, "cool": true, "load": true, "after": true, "grill": true, "press": true, "mill": true,
	"torch": true, "steamer": true, "sink": true, "freezer": true, "caution": true, "smoker": true,
}

// colonless reports whether a line of a step's facts has no colon and is meant as a
// fact, and adds its problem: "hob 1 ring", "Hands = 10 min".
func (p *parser) colonless(f document.Fact) bool {
	if f.Word != "" {
		return false
	}
	word, value := p.leadingWord(f.Value)
	if word == "" || value == "" {
		return false
	}
	equals := false
	if value, equals = document.CutAny(value, "="); equals {
		value = strings.TrimSpace(value)
	}
	if !equals && verbs[word] && !takes(word, value) {
		return false
	}
	p.Err(f.At, `"`+document.Clip(f.Value)+`" has no colon, so it is not read as a fact`, "", `write "`+word+": "+document.Clip(value)+`"`)
	return true
}

// leadingWord cuts the fact word or the equipment off the front of a line, the
// longest there is. word is "" when the line begins with none.
func (p *parser) leadingWord(line string) (word, rest string) {
	low := strings.ToLower(line)
	if len(low) != len(line) {
		return "", ""
	}
	for end := len(low); end > 0; {
		head := strings.TrimRight(low[:end], " =")
		if p.knows(head) && head != "" {
			return head, strings.TrimSpace(line[len(head):])
		}
		end = strings.LastIndexAny(low[:end], " =")
	}
	return "", ""
}

// takes reports whether a value can be what a fact takes, where the same word could
// begin a sentence.
func takes(word, value string) bool {
	if document.IsDigit(value[0]) {
		return true
	}
	low := strings.ToLower(value)
	begins := func(words ...string) bool {
		_, ok := document.CutAny(low, words...)
		return ok
	}
	switch word {
	case "check":
		return begins("core ")
	case "keep":
		return begins("straight", "at once", "chilled", "frozen")
	case "wait":
		return begins("about ", "at least ", "overnight")
	case "after":
		return begins("start", "step ")
	case "serve":
		return begins("yes", "no")
	case "caution":
		return true
	}
	return false
}

// below reads the lists that stand below a fact: its line lost its indent, or has too
// much. They hold more facts of the same step.
func (p *parser) below(step int, item ast.Node) (remarks []string) {
	for n := item.FirstChild(); n != nil; n = n.NextSibling() {
		if l, ok := n.(*ast.List); ok {
			remarks = append(remarks, p.facts(step, l)...)
		}
	}
	return remarks
}

// runsOn reports whether words that belong elsewhere run on in a fact, and adds its
// problem: a line below it that is a fact without its dash, or that has no indent.
func (p *parser) runsOn(fact ast.Node) bool {
	if fact.Lines().Len() < 2 {
		return false
	}
	if p.factLines(fact, 1) {
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

// factLines adds a problem for each line of a block of words that is meant as a fact:
// one with a fact's word and a colon that is no item of a list. skip is how many
// lines from the top are words.
func (p *parser) factLines(n ast.Node, skip int) (found bool) {
	lines := n.Lines()
	if n.Type() != ast.TypeBlock || lines == nil {
		return false
	}
	for i := skip; i < lines.Len(); i++ {
		at := lines.At(i)
		line := strings.TrimSpace(string(at.Value(p.Body())))
		word, _, ok := strings.Cut(line, ":")
		word = strings.ToLower(strings.TrimSpace(word))
		if ok && p.knows(word) {
			found = true
			p.Err(at.Start, `"`+document.Clip(line)+`" is read as words, not as a fact`, "", `begin the line with "- ", three spaces in: "   - `+document.Clip(line)+`"`)
		}
	}
	return found
}
