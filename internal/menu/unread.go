package menu

import (
	"bytes"
	"strings"
	"unicode"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
)

// A section is the lines between two headings, by their offsets.
type section struct {
	from, to int
	kind     kind
	course   int // index of the course above, or of this one
}

// kind is what the lines of a section are read as.
type kind int

const (
	top    kind = iota // the title, and the words for the reader
	course             // a course's plates
	guests             // the groups of guests with exclusions
)

// open begins a section below a heading and ends the one above it.
func (p *parser) open(k kind, heading ast.Node) {
	from, to := heading.Pos(), heading.Pos()
	if n := heading.Lines().Len(); n > 0 {
		from, to = heading.Lines().At(0).Start, heading.Lines().At(n-1).Stop
	}
	from = bytes.LastIndexByte(p.Body()[:from], '\n') + 1
	if end := bytes.IndexByte(p.Body()[to:], '\n'); end >= 0 {
		to += end
	} else {
		to = len(p.Body())
	}
	if n := len(p.sections); n > 0 {
		p.sections[n-1].to = from
	}
	p.sections = append(p.sections, section{to, len(p.Body()), k, len(p.menu.Courses) - 1})
}

// readLines notes that the lines of a block were read: what is wrong with them has its
// own problems.
func (p *parser) readLines(n ast.Node) {
	for i := range n.Lines().Len() {
		p.readLine(n.Lines().At(i).Start)
	}
}

// readLine notes that the line of an offset was read.
func (p *parser) readLine(at int) {
	if p.read == nil {
		p.read = map[int]bool{}
	}
	p.read[p.Place(at).Line] = true
}

// unread adds a problem for each line that was not read, so that nothing typed below the
// heading of the guests is lost, and no plate of a course.
func (p *parser) unread() {
	for _, s := range p.sections {
		for at := s.from; at < s.to; {
			end := at + bytes.IndexByte(p.Body()[at:s.to], '\n')
			if end < at {
				end = s.to
			}
			line := string(p.Body()[at:end])
			first := strings.IndexFunc(line, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) })
			if first >= 0 && !p.read[p.Place(at).Line] {
				p.unreadLine(s, line, at+first)
			}
			at = end + 1
		}
	}
}

// unreadLine adds the problem of a line whose first letter or figure is at an offset.
func (p *parser) unreadLine(s section, line string, at int) {
	words := document.Valid(strings.TrimSpace(line))
	switch link := strings.Contains(line, "](") || strings.Contains(line, ".md"); {
	case s.kind == guests:
		p.notChecked(words, at)
		p.Err(at, "not read, and not checked: "+`"`+document.Clip(line)+`"`, "", "put each group of guests on a line of its own in one list: "+`"- 2 covers: no fish"`)
	case isGroup(line):
		p.notChecked(words, at)
		p.Err(at, "guests outside their section are not checked", "", `put the line below a heading "## Guests"`)
	case s.kind == course && link:
		p.unreadPlate(s.course, words)
		p.Err(at, "this plate is not read", "", `put each plate on a line of its own in one list: "- [Soup](soup.md)"`)
	case s.kind == course:
		p.Warn(at, "this line of a course is not read", "", "put words for the reader above the first course, or take the line out")
	}
}

// unreadPlate keeps a line of a course that may be a plate and was not read. Where no more
// problems are told, the course's first is enough.
func (p *parser) unreadPlate(course int, line string) {
	c := &p.menu.Courses[course]
	if len(c.Unread) == 0 || !p.Full() {
		c.Unread = append(c.Unread, document.Valid(line))
	}
}

// notChecked keeps words about guests that were not read with the group above them, or as
// those of one guest, so that every screen says that they were not checked.
func (p *parser) notChecked(words string, at int) {
	if n := len(p.menu.Guests); n > 0 && p.Place(at).Line > p.menu.Guests[n-1].Pos.Line {
		p.unchecked(&p.menu.Guests[n-1], words)
		return
	}
	p.menu.Guests = append(p.menu.Guests, Guests{Covers: 1, NotChecked: []string{words}, Pos: p.Place(at)})
}

// isGroup reports whether a line begins like a group of guests: "- 2 covers".
func isGroup(line string) bool {
	line = strings.TrimLeft(line, " \t-*+>|#")
	rest := strings.TrimLeft(line, "0123456789")
	if rest == line {
		return false
	}
	word, _, _ := strings.Cut(strings.TrimLeft(strings.ToLower(rest), " |"), " ")
	switch strings.TrimRight(word, ":|") {
	case "cover", "covers", "guest", "guests":
		return true
	}
	return false
}
