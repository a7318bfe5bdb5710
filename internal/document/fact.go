package document

import (
	"bytes"
	"strings"

	"github.com/yuin/goldmark/ast"
)

// A Fact is one "word: value", of the front matter or of a list.
type Fact struct {
	Word    string // lower case, "" when the line has no colon
	Value   string // as typed, without the space around it
	At      int    // offset of the word
	ValueAt int    // offset of the value
}

// LineFact reads a line that begins at offset at as a fact. A line without a colon has
// no Word.
func LineFact(line string, at int) Fact {
	word, value, ok := strings.Cut(line, ":")
	lead := len(line) - len(trimLeft(line))
	if !ok {
		return Fact{Value: strings.TrimSpace(line), At: at + lead, ValueAt: at + lead}
	}
	rest := trimLeft(value)
	for rest != "" && rest[0] == ':' {
		rest = trimLeft(rest[1:]) // a colon typed twice
	}
	return Fact{
		Word:    strings.ToLower(strings.TrimSpace(word)),
		Value:   strings.TrimSpace(rest),
		At:      at + lead,
		ValueAt: at + len(line) - len(rest),
	}
}

// FrontMatter returns the facts of a file's front matter and reads nothing else
// of it.
func FrontMatter(src []byte) []Fact {
	f := &File{src: src[:min(len(src), MaxBytes)]}
	f.readFront()
	return f.Front
}

// readFront takes the lines between two "---" off the top. A front matter
// without its closing line ends at its first blank line or at the first heading.
func (f *File) readFront() {
	skip := len(f.src) - len(bytes.TrimPrefix(f.src, byteOrderMark))
	f.body, f.shift = f.src[skip:], skip
	first, rest := cutLine(f.body)
	if !isFence(first) {
		return
	}
	facts := make([]Fact, 0, 4)
	end, closed := len(f.src), false
	blank, before := -1, 0 // the first blank line, and how many facts stand above it
	for len(rest) > 0 {
		start := len(f.src) - len(rest)
		var line []byte
		line, rest = cutLine(rest)
		if closed = isFence(line); closed {
			end = len(f.src) - len(rest)
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
		facts = append(facts, LineFact(string(line), start))
	}
	if !closed && blank >= 0 {
		end, facts = blank, facts[:before]
	}
	if !closed && len(facts) == 0 {
		return // a horizontal rule at the top of the page
	}
	f.body, f.shift = f.src[end:], end
	if !closed {
		f.Err(skip-end, `the front matter has no closing "---"`, "", `put a line "---" below its last word`)
	}
	f.keepFacts(facts, end)
}

// keepFacts keeps the lines of the front matter that are facts, their offsets
// counted from its end, and adds a problem for each that is none.
func (f *File) keepFacts(lines []Fact, end int) {
	f.Front = lines[:0]
	for _, fact := range lines {
		fact.At -= end
		fact.ValueAt -= end
		if fact.Word == "" {
			f.Err(fact.At, "a line of the front matter without a colon", "", `write "word: value", or move the line below the second "---"`)
			continue
		}
		f.Front = append(f.Front, fact)
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

// Lines returns the words of a block as typed, on one line, and the offset at
// which they begin; at is −1 for a block without words.
func (f *File) Lines(n ast.Node) (words string, at int) {
	lines := n.Lines()
	switch lines.Len() {
	case 0:
		return "", -1
	case 1:
		s := lines.At(0)
		return trimRight(f.segment(s)), s.Start
	}
	var b strings.Builder
	for i := range lines.Len() {
		s := lines.At(i)
		if i > 0 {
			b.WriteByte(' ')
		}
		b.WriteString(trimRight(f.segment(s)))
	}
	return b.String(), lines.At(0).Start
}

// ItemFact reads a list item as a fact. An item without a colon has no Word; ok
// is false for an item without words.
func (f *File) ItemFact(item ast.Node) (fact Fact, ok bool) {
	first := item.FirstChild()
	if first == nil {
		return Fact{}, false
	}
	words, at := f.Lines(first)
	if at < 0 {
		return Fact{}, false
	}
	return LineFact(words, at), true
}

// trimLeft and trimRight run for every line: strings.TrimLeft builds a table of
// the characters to trim on each call.
func trimLeft(s string) string {
	for s != "" && (s[0] == ' ' || s[0] == '\t') {
		s = s[1:]
	}
	return s
}

func trimRight(s string) string {
	for n := len(s); n > 0 && (s[n-1] == ' ' || s[n-1] == '\t' || s[n-1] == '\r' || s[n-1] == '\n'); n-- {
		s = s[:n-1]
	}
	return s
}

// UnknownWord adds a problem for a word of the front matter that is none of
// words.
func (f *File) UnknownWord(fact Fact, words []string) {
	if hint := Nearest(fact.Word, words); hint != "" {
		f.Err(fact.At, `unknown word "`+fact.Word+`"`, hint, "")
		return
	}
	f.Warn(fact.At, `unknown word "`+fact.Word+`"`, "", "move it below the front matter if it is for the reader")
}
