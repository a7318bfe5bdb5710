package merge

import "strings"

// A writer builds the merged text.
type writer struct {
	out strings.Builder
	end string // the line end of the first line that has one
}

// part writes the merge of lines between two that all three texts have. It returns
// false when ours and theirs clash.
func (w *writer) part(base, ours, theirs []string) bool {
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
		return false
	}
	return true
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
	i := 0
	for _, l := range all {
		if i < len(some) && bare(l) == bare(some[i]) {
			i++
		} else if old[bare(l)] {
			return false
		}
	}
	return i == len(some)
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

// ending returns the line end to write where a line has none.
func (w *writer) ending() string {
	if w.end == "" {
		return "\n"
	}
	return w.end
}
