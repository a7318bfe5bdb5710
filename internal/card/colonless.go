package card

import (
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// verbs are fact words and equipment that a sentence may begin with: "check the
// seasoning". A line that begins with one and has no mark behind it is meant as a fact
// only when what follows is what the fact takes.
var verbs = map[string]bool{
	"check": true, "keep": true, "serve": true, "wait": true, "cool": true, "load": true, "after": true, "grill": true, "press": true, "mill": true,
	"torch": true, "steamer": true, "sink": true, "freezer": true, "smoker": true,
}

// colonless reports whether a line of a step's facts is meant as a fact and has no
// colon behind its word, and adds its problem: "hob 1 ring", "Hands = 10 min", "keep.
// 1 h room". The line begins at offset at.
func (p *parser) colonless(line string, at int) bool {
	word, rest := p.leadingWord(line)
	if word == "" {
		return false
	}
	value := strings.TrimLeft(rest, " =.;,/|-–—")
	marked := len(rest) > 0 && strings.IndexByte("=.;,/|-", rest[0]) >= 0 || strings.HasPrefix(strings.TrimLeft(rest, " "), "=")
	switch {
	case value == "" && !marked:
		return false // "fridge" alone
	case !marked && (rest[0] != ' ' || verbs[word] && !takes(word, value)):
		return false
	}
	do := `write "` + word + `"`
	if value != "" {
		do = `write "` + word + ": " + document.Clip(value) + `"`
	}
	p.Err(at, `"`+document.Clip(line)+`" has no colon, so it is not read as a fact`, "", do)
	return true
}

// leadingWord cuts the fact word or the equipment off the front of a line, the longest
// there is. word is "" when the line begins with none, or goes on in the same word.
func (p *parser) leadingWord(line string) (word, rest string) {
	low := strings.ToLower(line)
	if len(low) != len(line) {
		return "", ""
	}
	const longest = 24
	for end := min(len(low), longest); end > 0; end-- {
		if end < len(low) && document.IsWordRune(rune(low[end])) || !p.knows(low[:end]) {
			continue
		}
		return low[:end], line[end:]
	}
	return "", ""
}

// takes reports whether a value can be what a fact takes, where the same word could
// begin a sentence.
func takes(word, value string) bool {
	if document.IsDigit(value[0]) {
		return true
	}
	var words []string
	switch word {
	case "check":
		words = []string{"core "}
	case "keep":
		words = []string{"straight", "at once", "chilled", "frozen"}
	case "wait":
		words = []string{"about ", "at least ", "overnight"}
	case "after":
		words = []string{"start", "step "}
	case "serve":
		words = []string{"yes", "no"}
	}
	_, ok := document.CutAny(strings.ToLower(value), words...)
	return ok
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
