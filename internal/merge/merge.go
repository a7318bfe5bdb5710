// Package merge joins two texts that were edited apart, line by line: a
// three-way merge whose unit is the line.
//
// Enter by [Lines], which never loses a line that either side wrote. Where both
// sides changed the same lines in different ways it makes no text: people must
// choose.
//
// The package is pure and imports no other room: it knows nothing of cards,
// files or phones.
package merge

import (
	"slices"
	"strings"
)

// Lines returns the merge of ours and theirs, two texts that were both made from
// base. What one side changed and the other left alone is taken as changed. ok is
// false, and there is no merge, where both changed the same lines in different ways,
// and where the texts take more than a bounded number of steps to compare.
//
// Base is nil when the common text is not known; then lines that only one side
// has are all kept. Line ends do not count as a change, because a browser's text
// field writes its own; lines on which both agree keep the ends of ours.
func Lines(base *string, ours, theirs string) (merged string, ok bool) {
	steps := new(maxSteps) // left
	o, t := split(ours), split(theirs)
	var b []string
	var inOurs, inTheirs []int // for each line of b, its index in o and t, or -1
	if base == nil {
		for i, at := range match(o, t, steps) {
			if at >= 0 {
				b, inOurs, inTheirs = append(b, o[i]), append(inOurs, i), append(inTheirs, at)
			}
		}
	} else {
		b = split(*base)
		inOurs, inTheirs = match(b, o, steps), match(b, t, steps)
	}
	if *steps < 0 {
		return "", false
	}
	var w writer
	bi, oi, ti := 0, 0, 0
	for {
		// k is the next line that all three have: up to it they may differ.
		k := bi
		for k < len(b) && (inOurs[k] < 0 || inTheirs[k] < 0) {
			k++
		}
		if k == len(b) {
			if !w.part(b[bi:], o[oi:], t[ti:]) {
				return "", false
			}
			return w.out.String(), true
		}
		if !w.part(b[bi:k], o[oi:inOurs[k]], t[ti:inTheirs[k]]) {
			return "", false
		}
		w.line(o[inOurs[k]])
		bi, oi, ti = k+1, inOurs[k]+1, inTheirs[k]+1
	}
}

// Holds reports whether all has every line of some, as often, in any order. Blank
// lines of some do not count. Of two versions of a text whose common text is not known
// it tells which was made from the other.
func Holds(all, some string) bool {
	have := map[string]int{}
	for _, l := range split(all) {
		have[bare(l)]++
	}
	for _, l := range split(some) {
		if strings.TrimSpace(l) == "" {
			continue
		}
		if have[bare(l)]--; have[bare(l)] < 0 {
			return false
		}
	}
	return true
}

// same reports whether two lists of lines are equal but for line ends.
func same(a, b []string) bool {
	return slices.EqualFunc(a, b, func(x, y string) bool { return bare(x) == bare(y) })
}

// split returns the lines of a text, each with its line end.
func split(text string) []string {
	return slices.Collect(strings.Lines(text))
}

// bare returns a line without its line end.
func bare(line string) string {
	if l, ok := strings.CutSuffix(line, "\r\n"); ok {
		return l
	}
	return strings.TrimSuffix(line, "\n")
}
