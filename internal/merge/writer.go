package merge

import (
	"slices"
	"strings"
)

// A writer builds the merged text.
type writer struct {
	out strings.Builder
	end string // the line end of the first line that has one
}

// part writes the merge of lines between two that all three texts have.
func (w *writer) part(base, ours, theirs []string) {
	switch {
	case same(ours, theirs), same(theirs, base):
		w.all(ours)
	case same(ours, base):
		w.all(theirs)
	case covers(ours, theirs, base):
		w.all(ours)
	case covers(theirs, ours, base):
		w.all(theirs)
	default:
		w.clash(ours, theirs)
	}
}

// covers reports whether all holds every line of some, in order, so that nothing
// clashes: two cooks wrote the same and one wrote more, or an edit arrives again
// that an earlier merge took in. It is false where some deleted a line of base
// that all only left alone.
func covers(all, some, base []string) bool {
	if len(some) == 0 {
		return false // deleted by one side, changed by the other: people must choose
	}
	old := map[string]bool{}
	for _, l := range base {
		old[bare(l)] = true
	}
	i, leftAlone := 0, false
	for _, l := range all {
		if i < len(some) && bare(l) == bare(some[i]) {
			i++
		} else if old[bare(l)] {
			leftAlone = true
		}
	}
	return i == len(some) && (!leftAlone || slices.ContainsFunc(all, isMark))
}

// clash writes both versions between marked lines. Lines with which both begin
// or end are written once, outside the marks.
func (w *writer) clash(ours, theirs []string) {
	n := 0
	for n < min(len(ours), len(theirs)) && bare(ours[n]) == bare(theirs[n]) {
		n++
	}
	w.all(ours[:n])
	ours, theirs = ours[n:], theirs[n:]
	n = 0
	for n < min(len(ours), len(theirs)) && bare(ours[len(ours)-1-n]) == bare(theirs[len(theirs)-1-n]) {
		n++
	}
	after := ours[len(ours)-n:]
	w.mark(markFirst)
	w.all(ours[:len(ours)-n])
	w.mark(markSecond)
	w.all(theirs[:len(theirs)-n])
	w.mark(markEnd)
	w.all(after)
}

func (w *writer) all(lines []string) {
	for _, l := range lines {
		w.line(l)
	}
}

// line writes a line. When the line before it has no line end, because it was
// the last of its text, line writes one first.
func (w *writer) line(l string) {
	if s := w.out.String(); strings.HasSuffix(s, "\r") {
		w.out.WriteString("\r\n") // else the stray \r would become half of a line end
	} else if s != "" && !strings.HasSuffix(s, "\n") {
		w.out.WriteString(w.ending())
	}
	if w.end == "" && strings.HasSuffix(l, "\n") {
		w.end = l[len(bare(l)):]
	}
	w.out.WriteString(l)
}

func (w *writer) mark(mark string) { w.line(mark + w.ending()) }

// ending returns the line end to write where a line has none.
func (w *writer) ending() string {
	if w.end == "" {
		return "\n"
	}
	return w.end
}
