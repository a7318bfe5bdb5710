package card

import (
	"bytes"
	"slices"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
)

// MaxBytes is the longest file that is read. A long card is 8 KiB; something of
// a quarter of a mebibyte is a photograph under the wrong name, and a phone
// should not be asked to parse it.
const MaxBytes = 256 << 10

// maxNesting bounds how deep quotes and lists may stand in each other. Parser
// and renderer recurse, and a stack that overflows can't be caught.
const maxNesting = 64

// markdown is never changed after it is made, so all callers may share it.
var markdown = goldmark.New(goldmark.WithExtensions(extension.Table))

// A Doc is a Markdown file taken apart: its front matter, its blocks, and the
// problems so far. Cards, menus and kitchens all begin as one.
//
// Places in it are byte offsets into the Markdown after the front matter;
// those of the front matter itself are negative. [Doc.Place] turns either into
// line and column.
type Doc struct {
	File     string
	Front    []Fact
	Root     ast.Node // never nil
	Problems []Problem

	src   []byte
	body  []byte // src after the front matter: what Root's segments point into
	text  string // body once more, for the words taken out of it: a piece of a string costs nothing
	shift int    // len(src) − len(body)
	lost  bool   // nothing of the Markdown could be read, and a problem says why
	lines []int  // offset into src of the start of each line; made when first asked for
}

// Open reads a file's front matter and Markdown. What stands in the way of
// reading it at all (no text, too much of it) is found fault with, and the Doc
// is then empty.
func Open(file string, src []byte) *Doc {
	d := &Doc{File: file, src: src}
	switch {
	case len(src) > MaxBytes:
		d.fault(Error, 0, "the file has "+size(len(src))+"; one of more than "+size(MaxBytes)+" is not read", "", "check that it is the right file")
		d.lost = true
		d.Root = ast.NewDocument()
		return d
	case len(bytes.TrimSpace(bytes.TrimPrefix(src, bom))) == 0:
		d.fault(Error, 0, "the file is empty", "", `begin with a title: "# Brown chicken stock"`)
		d.lost = true
		d.Root = ast.NewDocument()
		return d
	}
	d.readFront()
	d.checkBytes()
	if at := tooDeep(d.body); at >= 0 {
		d.Err(at, "quotes or lists stand too deep in each other here; nothing below the front matter is read", "", "take the marks at the start of the line away")
		d.body, d.shift, d.lost = nil, len(src), true
	}
	d.text = string(d.body)
	d.Root = markdown.Parser().Parse(text.NewReader(d.body))
	return d
}

// words is a piece of the Markdown as typed.
func (d *Doc) words(s text.Segment) string {
	if s.Padding == 0 && !s.ForceNewline && s.Stop <= len(d.text) {
		return d.text[s.Start:s.Stop]
	}
	return string(s.Value(d.body)) // in part of a tab
}

var bom = []byte("\uFEFF")

// checkBytes looks for bytes that are no text. They don't stop the reading: the
// rest of the card is still worth having.
func (d *Doc) checkBytes() {
	if i := bytes.IndexByte(d.src, 0); i >= 0 {
		d.Err(i-d.shift, "a NUL byte: this is not a text file, or it was damaged", "", "take the byte out or restore the file")
	}
	if utf8.Valid(d.src) {
		return
	}
	for i := 0; i < len(d.src); {
		r, n := utf8.DecodeRune(d.src[i:])
		if r == utf8.RuneError && n == 1 {
			d.Err(i-d.shift, "a byte that is not UTF-8", "", "save the file as UTF-8")
			return
		}
		i += n
	}
}

// tooDeep returns the offset of the first line that opens more than maxNesting
// quotes or lists at once or by its indent, or −1.
func tooDeep(body []byte) int {
	for at := 0; at < len(body); {
		end := bytes.IndexByte(body[at:], '\n')
		if end < 0 {
			end = len(body) - at
		}
		marks, indent := 0, 0
		line := body[at : at+end]
	marks:
		for i, c := range line {
			switch c {
			case ' ':
				indent++
			case '\t':
				indent += 4
			case '>':
				marks++
			case '-', '+', '*':
				// A rule ("* * *") is no list, but nobody needs one that long.
				if i+1 < len(line) && line[i+1] != ' ' && line[i+1] != '\t' {
					break marks
				}
				marks++
			case '0', '1', '2', '3', '4', '5', '6', '7', '8', '9':
			case '.', ')':
				marks++
			default:
				break marks
			}
		}
		if marks+indent/4 > maxNesting {
			return at
		}
		at += end + 1
	}
	return -1
}

// Place turns an offset into line and column.
func (d *Doc) Place(at int) Pos {
	if d.lines == nil {
		d.lines = make([]int, 1, 1+bytes.Count(d.src, newline))
		for rest := d.src; ; {
			i := bytes.IndexByte(rest, '\n')
			if i < 0 {
				break
			}
			rest = rest[i+1:]
			d.lines = append(d.lines, len(d.src)-len(rest))
		}
	}
	at = min(max(at+d.shift, 0), len(d.src))
	i, found := slices.BinarySearch(d.lines, at)
	if !found {
		i--
	}
	line := bytes.TrimPrefix(d.src[d.lines[i]:at], bom) // editors don't count it
	return Pos{Line: i + 1, Col: utf8.RuneCount(line) + 1}
}

var newline = []byte{'\n'}

// Err adds a problem of an error. Hint and do may be empty, see [Problem].
func (d *Doc) Err(at int, msg, hint, do string) { d.fault(Error, at, msg, hint, do) }

// Warn adds a problem that deserves a look.
func (d *Doc) Warn(at int, msg, hint, do string) { d.fault(Warning, at, msg, hint, do) }

func (d *Doc) fault(s Severity, at int, msg, hint, do string) {
	if len(d.Problems) >= maxProblems {
		return
	}
	p := d.Place(at)
	d.Problems = append(d.Problems, Problem{File: d.File, Line: p.Line, Col: p.Col, Severity: s, Msg: msg, Hint: hint, Do: do})
}

// maxProblems is more than anyone mends in one go.
const maxProblems = 200

// Done returns the problems in the order of the text.
func (d *Doc) Done() []Problem {
	// Not slices.SortStableFunc: it is compiled again for every kind of thing it
	// sorts, ten kilobytes a time, and a phone has to fetch them all.
	sort.SliceStable(d.Problems, func(i, j int) bool {
		a, b := &d.Problems[i], &d.Problems[j]
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Col < b.Col
	})
	return d.Problems
}

// ID is what links and ticks call a file: its name without folder and ".md".
func ID(file string) string {
	if i := strings.LastIndexAny(file, `/\`); i >= 0 {
		file = file[i+1:]
	}
	return strings.TrimSuffix(file, ".md")
}

func size(n int) string {
	if n >= 1<<20 {
		return strconv.Itoa(n>>20) + " MiB"
	}
	return strconv.Itoa(n>>10) + " KiB"
}
