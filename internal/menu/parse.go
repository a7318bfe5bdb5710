package menu

import (
	"strconv"
	"strings"

	"github.com/yuin/goldmark/ast"

	"hobside/internal/document"
	"hobside/internal/larder"
	"hobside/internal/quantity"
)

// MaxCovers is the most covers a menu may have. No one kitchen cooks for more,
// so a larger number is a typing mistake.
const MaxCovers = 10000

// frontWords are the words that a menu's front matter may have.
var frontWords = []string{"covers", "serve", "kitchen", "margin", "rules"}

// Parse reads a menu and returns it with its problems. The name of the file gives
// the menu its ID and appears in the problems. The menu is never nil: it holds
// what could be read.
func Parse(file string, src []byte) (*Menu, []document.Problem) {
	return ParseFor(file, src, nil, quantity.USMeasures)
}

// ParseFor reads a menu as [Parse] does: its guests' words by a kitchen's own foods, nil for
// none, and its pints as those of m where it names no "rules".
func ParseFor(file string, src []byte, foods *larder.Foods, m quantity.Measures) (*Menu, []document.Problem) {
	p := &parser{File: document.Open(file, src)}
	p.MeasureBy(m)
	p.menu = &Menu{ID: document.ID(file), File: file, Source: src, Foods: foods}
	p.front()
	p.blocks()
	p.finish()
	return p.menu, p.Done()
}

// parser reads one menu. This file reads the front matter and checks the menu as
// a whole; course.go and guests.go read the lists.
type parser struct {
	*document.File
	menu     *Menu
	coversAt int          // byte where the number of covers is written, 0 when it is not
	timed    map[int]bool // indexes of the courses that say when they are served
	sections []section
	read     map[int]bool // lines that were read
	form     bool         // the guests were filled in on a form
}

// front reads the words of the front matter.
func (p *parser) front() {
	m := p.menu
	for _, f := range p.Front {
		switch f.Word {
		case "covers":
			p.coversAt = f.ValueAt
			n, ok := p.Count(f.Value, f.ValueAt, MaxCovers, "not a number of covers", "write how many guests there are, from 1 to "+strconv.Itoa(MaxCovers))
			if !ok {
				continue
			}
			m.Covers = n
		case "serve":
			w, what := document.ParseWhen(f.Value)
			if what != "" {
				p.Err(f.ValueAt, what, "", `write it like "serve: 2027-06-12 19:30" or "serve: 19:30"`)
				continue
			}
			m.Serve = w
		case "kitchen":
			m.Kitchen = document.ID(f.Value)
		case "rules":
			p.Rules(f)
		case "margin":
			m.Margin = p.Share(f)
		default:
			p.UnknownWord(f, frontWords)
		}
	}
}

// blocks reads the text below the front matter from top to bottom. Every
// second-level heading begins a course, except the heading of the guests.
func (p *parser) blocks() {
	now := top
	var intro []string
	for n := p.Root.FirstChild(); n != nil; n = n.NextSibling() {
		if h, ok := n.(*ast.Heading); ok {
			now = p.heading(h, now)
			continue
		}
		l, isList := n.(*ast.List)
		switch {
		case now == guests:
			p.guestBlock(n)
		case now == course && isList:
			for item := l.FirstChild(); item != nil; item = item.NextSibling() {
				p.courseLine(len(p.menu.Courses)-1, item)
			}
		case now == top && isList:
			p.Err(document.Start(l), "a list above the first course is not read", "", `put "## " and the course's name above it, or "## Guests"`)
			for item := l.FirstChild(); item != nil; item = item.NextSibling() {
				if f, ok := p.ItemFact(item); ok && isGroup(f.Word) {
					p.notChecked(document.Valid(f.Word+": "+f.Value), f.At)
				}
			}
		case now == top:
			words, _ := p.Text(n)
			if n.Kind() == ast.KindCodeBlock { // a paragraph set in by four spaces
				words, _ = p.Lines(n)
			}
			if words = strings.TrimSpace(words); words != "" {
				intro = append(intro, words)
			}
			if isGroup(words) {
				p.unreadLine(section{kind: top}, words, document.Start(n))
			}
		}
	}
	p.unread()
	p.menu.Intro = strings.Join(intro, "\n\n")
}

// heading reads a heading and returns what the lines below it are.
func (p *parser) heading(h *ast.Heading, now kind) kind {
	words, at := p.Text(h)
	words = strings.TrimSpace(words)
	switch {
	case h.Level == 1 && p.menu.Title == "":
		p.menu.Title = words
		return now
	case isGuests(words):
		now = guests
	case h.Level <= 2:
		now = course
		var unread []string
		switch {
		case words == "":
			p.Err(max(at, 0), "a course without a name", "", "write its name after the ##")
		case document.LinkIn(h) != nil:
			unread = append(unread, words)
			p.Err(max(at, 0), "a link in the heading of a course is no plate", "", `put each plate on a line of its own below it: "- [Soup](soup.md)"`)
		}
		p.menu.Courses = append(p.menu.Courses, Course{Name: words, Unread: unread, Pos: p.Place(max(at, 0))})
	case now == course && document.LinkIn(h) == nil:
		p.readLines(h)
		p.Warn(max(at, 0), `"`+words+`" begins no course`, "", `write it with two signs if it is a course, "## `+words+`"; else take it out`)
		return now
	default:
		return now // among the guests, or with a plate, it is a line that is not read
	}
	p.open(now, h)
	return now
}

// isGuests reports whether a heading begins the list of guests with exclusions.
func isGuests(heading string) bool {
	switch strings.ToLower(strings.TrimRight(heading, ": ")) {
	case "guests", "exclusions":
		return true
	}
	return false
}

// finish adds the problems of the menu as a whole, and gives a course without a
// time the time of the course before it.
func (p *parser) finish() {
	m := p.menu
	if p.Root.FirstChild() == nil && len(p.Front) == 0 {
		return // nothing could be read, and the problem says why
	}
	if m.Title == "" {
		p.Warn(0, "the menu has no title", "", `begin it with "# " and its name`)
	}
	if m.Covers == 0 && p.coversAt == 0 {
		p.Err(0, "the menu does not say how many covers it is for", "", `add "covers: 18" between the "---" lines at the top`)
	}
	if len(m.Courses) == 0 {
		p.Err(0, "the menu has no courses", "", `write "## " and the course's name, and below it a list of links to its plates`)
	}
	if msg, do, over := MoreGuestsThan(m.Covers, m.Guests); over && m.Covers > 0 {
		p.Err(p.coversAt, msg, "", do)
	}
	for i, c := range m.Courses {
		if len(c.Plates) == 0 && c.Name != "" {
			p.Problems = append(p.Problems, document.Problem{File: m.File, Line: c.Pos.Line, Col: c.Pos.Col, Severity: document.Warning,
				Msg: `the course "` + c.Name + `" has no plates`, Do: `add a list of links below it: "- [Soup](soup.md)"`})
		}
		if i > 0 && p.timed[i] && c.After < m.Courses[i-1].After {
			p.Problems = append(p.Problems, document.Problem{File: m.File, Line: c.Pos.Line, Col: c.Pos.Col, Severity: document.Warning,
				Msg: `"` + c.Name + `" is served before the course above it`, Do: "put the courses in the order they are served"})
		}
		if i > 0 && !p.timed[i] {
			m.Courses[i].After = m.Courses[i-1].After
		}
	}
}
