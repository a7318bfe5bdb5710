package card

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// A Fact is one "word: value", of the front matter or of a nested list.
type Fact struct {
	Word    string // lower case, "" when the line has no colon
	Value   string // as typed, without the space around it
	At      int    // where the word stands
	ValueAt int    // where the value stands
}

// splitFact takes a line apart that stands at offset at.
func splitFact(line string, at int) Fact {
	word, value, ok := strings.Cut(line, ":")
	lead := len(line) - len(leftTrimmed(line))
	if !ok {
		return Fact{Value: strings.TrimSpace(line), At: at + lead, ValueAt: at + lead}
	}
	rest := leftTrimmed(value)
	return Fact{
		Word:    strings.ToLower(strings.TrimSpace(word)),
		Value:   strings.TrimSpace(rest),
		At:      at + lead,
		ValueAt: at + len(line) - len(rest),
	}
}

// readFront takes the lines between two "---" off the top. A front matter that
// nobody closed ends at its first blank line or at the first heading.
func (d *Doc) readFront() {
	skip := len(d.src) - len(bytes.TrimPrefix(d.src, bom))
	d.body, d.shift = d.src[skip:], skip
	first, rest := cutLine(d.body)
	if !isFence(first) {
		return
	}
	facts := make([]Fact, 0, 4)
	end, closed := len(d.src), false
	blank, before := -1, 0 // the first blank line, and how many facts stand above it
	for len(rest) > 0 {
		start := len(d.src) - len(rest)
		var line []byte
		line, rest = cutLine(rest)
		if closed = isFence(line); closed {
			end = len(d.src) - len(rest)
			break
		}
		if line = bytes.TrimRight(line, " \t\r"); len(line) == 0 {
			if blank < 0 {
				blank, before = start, len(facts)
			}
			continue
		}
		if line[0] == '#' {
			end = start
			break
		}
		facts = append(facts, splitFact(string(line), start))
	}
	if !closed && blank >= 0 {
		end, facts = blank, facts[:before]
	}
	if !closed && len(facts) == 0 {
		return // a rule at the top of the page
	}
	d.body, d.shift = d.src[end:], end
	if !closed {
		d.Err(skip-end, `the front matter has no closing "---"`, "", `put a line "---" below its last word`)
	}
	d.Front = facts[:0] // those with a word, in the same room
	for _, f := range facts {
		f.At -= end
		f.ValueAt -= end
		if f.Word == "" {
			d.Err(f.At, "a line of the front matter without a colon", "", `write "word: value", or move the line below the second "---"`)
			continue
		}
		d.Front = append(d.Front, f)
	}
}

func cutLine(b []byte) (line, rest []byte) {
	if i := bytes.IndexByte(b, '\n'); i >= 0 {
		return b[:i], b[i+1:]
	}
	return b, nil
}

func isFence(line []byte) bool {
	return string(bytes.TrimRight(line, " \t\r")) == "---"
}

// Lines returns the words of a block as typed, on one line, and where they
// begin; at is −1 for a block without words.
func (d *Doc) Lines(n ast.Node) (words string, at int) {
	lines := n.Lines()
	switch lines.Len() {
	case 0:
		return "", -1
	case 1:
		s := lines.At(0)
		return rightTrimmed(d.words(s)), s.Start
	}
	var b strings.Builder
	for i := range lines.Len() {
		s := lines.At(i)
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(rightTrimmed(d.words(s)))
	}
	return b.String(), lines.At(0).Start
}

// ItemFact reads a list item as a fact. An item without a colon has no Word.
func (d *Doc) ItemFact(item ast.Node) (f Fact, ok bool) {
	first := item.FirstChild()
	if first == nil {
		return Fact{}, false
	}
	words, at := d.Lines(first)
	if at < 0 {
		return Fact{}, false
	}
	return splitFact(words, at), true
}

// leftTrimmed and rightTrimmed are called for every line: strings.TrimLeft
// makes a table of what to trim each time.
func leftTrimmed(s string) string {
	for s != "" && (s[0] == ' ' || s[0] == '\t') {
		s = s[1:]
	}
	return s
}

func rightTrimmed(s string) string {
	for n := len(s); n > 0 && (s[n-1] == ' ' || s[n-1] == '\t' || s[n-1] == '\r' || s[n-1] == '\n'); n-- {
		s = s[:n-1]
	}
	return s
}

// Front returns the facts of a file's front matter and reads nothing else of it.
func Front(src []byte) []Fact {
	d := &Doc{src: src[:min(len(src), MaxBytes)]}
	d.readFront()
	return d.Front
}
