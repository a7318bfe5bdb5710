package hub

import (
	"slices"
	"strings"
)

// The lines that stand around two versions. They are plain words in a card that
// people read; any reader of Markdown shows them as a quotation.
const (
	markFirst  = "> **Two versions of these lines.** The first:"
	markSecond = "> **Two versions of these lines.** The second:"
	markEnd    = "> **Two versions of these lines.** So far. Keep what is right; delete these three lines."
)

// Marked says whether a text still has lines that stand around two versions.
func Marked(text string) bool {
	return slices.ContainsFunc(lines(text), isMark)
}

func isMark(line string) bool {
	k := bare(line)
	return k == markFirst || k == markSecond || k == markEnd
}

// Merge joins two texts that were made from one, line by line: what one side
// changed and the other left alone is taken as changed. Where both changed the
// same lines in different ways, both versions stay in the text with marked lines
// around them. No line that either side wrote is lost.
//
// Base is nil when the text that both came from is not known; then lines that
// only one side has are all kept.
//
// Line ends do not count as a change, since a browser's text field writes its
// own; lines on which both agree keep ours.
func Merge(base *string, ours, theirs string) string {
	o, t := lines(ours), lines(theirs)
	var b []string
	var inOurs, inTheirs []int // for each line of b, its place there, or -1
	if base == nil {
		for i, at := range match(o, t) {
			if at >= 0 {
				b, inOurs, inTheirs = append(b, o[i]), append(inOurs, i), append(inTheirs, at)
			}
		}
	} else {
		b = lines(*base)
		inOurs, inTheirs = match(b, o), match(b, t)
	}
	var m merger
	bi, oi, ti := 0, 0, 0
	for {
		// The next line that all three have is where they come together again.
		k := bi
		for k < len(b) && (inOurs[k] < 0 || inTheirs[k] < 0) {
			k++
		}
		if k == len(b) {
			m.part(b[bi:], o[oi:], t[ti:])
			return m.out.String()
		}
		m.part(b[bi:k], o[oi:inOurs[k]], t[ti:inTheirs[k]])
		m.line(o[inOurs[k]])
		bi, oi, ti = k+1, inOurs[k]+1, inTheirs[k]+1
	}
}

// holds says whether a text has all the words of another, line by line, wherever
// they stand. Of two revisions handed back out of their order it tells which
// came of which; merging them once more would only set marks around marks.
func holds(all, some string) bool {
	have := map[string]int{}
	for _, l := range lines(all) {
		have[bare(l)]++
	}
	for _, l := range lines(some) {
		if isMark(l) || strings.TrimSpace(l) == "" {
			continue
		}
		if have[bare(l)]--; have[bare(l)] < 0 {
			return false
		}
	}
	return true
}

// merger writes the merged text.
type merger struct {
	out strings.Builder
	end string // what the text ends its lines with
}

// part settles a stretch of lines on which the three may differ.
func (m *merger) part(base, ours, theirs []string) {
	switch {
	case same(ours, theirs), same(theirs, base):
		m.all(ours)
	case same(ours, base):
		m.all(theirs)
	case covers(ours, theirs, base):
		m.all(ours)
	case covers(theirs, ours, base):
		m.all(theirs)
	default:
		m.clash(ours, theirs)
	}
}

// covers says whether one version has every line of the other, and more, so
// that nothing clashes: two cooks wrote the same and one went on, or an edit
// comes again that a merge has taken in. It is not so where the other had taken
// a line out that the first only left alone.
func covers(all, some, base []string) bool {
	if len(some) == 0 {
		return false // taken out by the one, changed by the other: for people to settle
	}
	old := map[string]bool{}
	for _, l := range base {
		old[bare(l)] = true
	}
	i, alone := 0, false
	for _, l := range all {
		if i < len(some) && bare(l) == bare(some[i]) {
			i++
		} else if old[bare(l)] {
			alone = true
		}
	}
	return i == len(some) && (!alone || slices.ContainsFunc(all, isMark))
}

// clash writes both versions; lines with which both begin or end stand outside.
func (m *merger) clash(ours, theirs []string) {
	n := 0
	for n < min(len(ours), len(theirs)) && bare(ours[n]) == bare(theirs[n]) {
		n++
	}
	m.all(ours[:n])
	ours, theirs = ours[n:], theirs[n:]
	n = 0
	for n < min(len(ours), len(theirs)) && bare(ours[len(ours)-1-n]) == bare(theirs[len(theirs)-1-n]) {
		n++
	}
	after := ours[len(ours)-n:]
	m.mark(markFirst)
	m.all(ours[:len(ours)-n])
	m.mark(markSecond)
	m.all(theirs[:len(theirs)-n])
	m.mark(markEnd)
	m.all(after)
}

func (m *merger) all(lines []string) {
	for _, l := range lines {
		m.line(l)
	}
}

// line writes a line; one before it that had no end, being its text's last, gets one.
func (m *merger) line(l string) {
	if s := m.out.String(); strings.HasSuffix(s, "\r") {
		m.out.WriteString("\r\n") // a stray \r must not become half of a line's end
	} else if s != "" && !strings.HasSuffix(s, "\n") {
		m.out.WriteString(m.ending())
	}
	if m.end == "" && strings.HasSuffix(l, "\n") {
		m.end = l[len(bare(l)):]
	}
	m.out.WriteString(l)
}

func (m *merger) mark(mark string) { m.line(mark + m.ending()) }

func (m *merger) ending() string {
	if m.end == "" {
		return "\n"
	}
	return m.end
}

func same(a, b []string) bool {
	return slices.EqualFunc(a, b, func(x, y string) bool { return bare(x) == bare(y) })
}

// lines cuts a text into lines, each with its end.
func lines(text string) []string {
	return slices.Collect(strings.Lines(text))
}

// bare is a line without its end.
func bare(line string) string {
	if l, ok := strings.CutSuffix(line, "\r\n"); ok {
		return l
	}
	return strings.TrimSuffix(line, "\n")
}
