package document

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

	"hobside/internal/quantity"
)

// MaxBytes is the size of the longest file that is read. A long card has 8 KiB.
// A file above a quarter of a mebibyte is probably a photograph with the wrong
// name, and a phone should not have to parse it.
const MaxBytes = 256 << 10

// markdown parses and renders every file. Nothing changes it after it is made,
// so all callers may share it.
var markdown = goldmark.New(goldmark.WithExtensions(extension.Table))

// A File is a Markdown file taken apart: its front matter, its blocks, and the
// problems found so far. Cards, menus and kitchens all begin as one.
//
// Offsets into it count bytes of the Markdown after the front matter; offsets
// of the front matter itself are negative. [File.Place] turns both into line
// and column.
type File struct {
	Name     string
	Front    []Fact
	Root     ast.Node // never nil
	Problems []Problem
	Measures quantity.Measures // whose pints its amounts are, where they do not say

	src    []byte
	body   []byte // src after the front matter: what Root's segments point into
	text   string // body as a string: substrings of it need no allocation
	shift  int    // len(src) − len(body)
	unread bool   // nothing of the Markdown could be read, and a problem says why
	lines  []int  // offset into src of the start of each line; made when first needed
}

// Open reads a file's front matter and Markdown. When the file can't be read at
// all (it is no text, or too long), a problem says so and the File is empty.
func Open(name string, src []byte) *File {
	f := &File{Name: name, src: src}
	switch {
	case len(src) > MaxBytes:
		f.add(Error, 0, "the file has "+size(len(src))+"; one of more than "+size(MaxBytes)+" is not read", "", "check that it is the right file")
		f.unread = true
		f.Root = ast.NewDocument()
		return f
	case len(bytes.TrimSpace(bytes.TrimPrefix(src, byteOrderMark))) == 0:
		f.add(Error, 0, "the file is empty", "", `begin with a title: "# Brown chicken stock"`)
		f.unread = true
		f.Root = ast.NewDocument()
		return f
	}
	f.readFront()
	f.checkBytes()
	if at, what, do := tooMuch(f.body); what != "" {
		f.Err(at, what+" here; nothing below the front matter is read", "", do)
		f.body, f.shift, f.unread = nil, len(src), true
	}
	f.text = string(f.body)
	f.Root = markdown.Parser().Parse(text.NewReader(f.body))
	return f
}

// tooMuch returns the place of what the parser must not be given, because it
// would run out of stack or memory, with what is wrong and what to do. What is ""
// when nothing is.
func tooMuch(body []byte) (at int, what, do string) {
	if at := tooDeep(body); at >= 0 {
		return at, "quotes or lists stand too deep in each other", "take the marks at the start of the line away"
	}
	if at := tooWide(body); at >= 0 {
		return at, "a table with too many cells", "take the columns out that hold nothing, or write several files"
	}
	return 0, "", ""
}

// Body returns the Markdown after the front matter: what offsets count into.
// The caller must not change it.
func (f *File) Body() []byte { return f.body }

// Top returns the offset of the file's first byte, which is negative when there
// is front matter.
func (f *File) Top() int { return -f.shift }

// Unread reports whether nothing of the Markdown could be read. A problem says
// why.
func (f *File) Unread() bool { return f.unread }

// segment returns a piece of the Markdown as typed.
func (f *File) segment(s text.Segment) string {
	if s.Padding == 0 && !s.ForceNewline && s.Stop <= len(f.text) {
		return f.text[s.Start:s.Stop]
	}
	return string(s.Value(f.body)) // it begins inside a tab
}

// byteOrderMark is what some editors put before the first character.
var byteOrderMark = []byte("\uFEFF")

// checkBytes adds a problem for bytes that are no text. Reading goes on: the
// rest of the file is still useful.
func (f *File) checkBytes() {
	if i := bytes.IndexByte(f.src, 0); i >= 0 {
		f.Err(i-f.shift, "a NUL byte: this is not a text file, or it was damaged", "", "take the byte out or restore the file")
	}
	if utf8.Valid(f.src) {
		return
	}
	for i := 0; i < len(f.src); {
		r, n := utf8.DecodeRune(f.src[i:])
		if r == utf8.RuneError && n == 1 {
			f.Err(i-f.shift, "a byte that is not UTF-8", "", "save the file as UTF-8")
			return
		}
		i += n
	}
}

// Place returns the line and column of an offset. An offset outside the file
// gives the nearest end of it.
func (f *File) Place(at int) Pos {
	f.indexLines()
	at = min(max(at+f.shift, 0), len(f.src))
	i, found := slices.BinarySearch(f.lines, at)
	if !found {
		i--
	}
	line := bytes.TrimPrefix(f.src[f.lines[i]:at], byteOrderMark) // editors don't count it
	return Pos{Line: i + 1, Col: utf8.RuneCount(line) + 1}
}

// LineStart returns the offset at which the line of a place begins.
func (f *File) LineStart(p Pos) int {
	f.indexLines()
	return f.lines[min(p.Line, len(f.lines))-1] - f.shift
}

func (f *File) indexLines() {
	if f.lines != nil {
		return
	}
	f.lines = make([]int, 1, 1+bytes.Count(f.src, newline))
	for rest := f.src; ; {
		i := bytes.IndexByte(rest, '\n')
		if i < 0 {
			return
		}
		rest = rest[i+1:]
		f.lines = append(f.lines, len(f.src)-len(rest))
	}
}

var newline = []byte{'\n'}

// Err adds an error at an offset. Hint and do may be empty, see [Problem].
func (f *File) Err(at int, msg, hint, do string) { f.add(Error, at, msg, hint, do) }

// Warn adds a warning at an offset. Hint and do may be empty, see [Problem].
func (f *File) Warn(at int, msg, hint, do string) { f.add(Warning, at, msg, hint, do) }

func (f *File) add(s Severity, at int, msg, hint, do string) {
	if f.Full() {
		return
	}
	p := f.Place(at)
	f.Problems = append(f.Problems, Problem{File: f.Name, Line: p.Line, Col: p.Col, Severity: s, Msg: msg, Hint: hint, Do: do})
}

// maxProblems is more than anyone corrects at once. Later problems are dropped.
const maxProblems = 200

// Full reports whether later problems are dropped, so that a parser need not
// look for suggestions any more.
func (f *File) Full() bool { return len(f.Problems) >= maxProblems }

// Done returns the problems in the order of the text.
func (f *File) Done() []Problem {
	// Not slices.SortStableFunc: the compiler makes a copy of it for every type
	// that is sorted, ten kilobytes each, and a phone has to fetch them all.
	sort.SliceStable(f.Problems, func(i, j int) bool {
		a, b := &f.Problems[i], &f.Problems[j]
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Col < b.Col
	})
	return f.Problems
}

// ID returns what links and ticks call a file: its name without folder and
// without ".md".
func ID(name string) string {
	if i := strings.LastIndexAny(name, `/\`); i >= 0 {
		name = name[i+1:]
	}
	return strings.TrimSuffix(name, ".md")
}

func size(n int) string {
	if n >= 1<<20 {
		return strconv.Itoa(n>>20) + " MiB"
	}
	return strconv.Itoa(n>>10) + " KiB"
}
