package merge

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func joined(lines ...string) string { return strings.Join(lines, "\n") + "\n" }

func TestLines(t *testing.T) {
	card := joined("# Stock", "", "- 3 kg bones", "- 500 g onions", "- 5 L water", "", "1. Roast.", "2. Simmer.")
	edit := func(old, new string) string {
		require.Contains(t, card, old)
		return strings.Replace(card, old, new, 1)
	}
	for _, tt := range []struct {
		name               string
		base, ours, theirs string
		want               string
		clash              bool
	}{
		{"no change", card, card, card, card, false},
		{"only they changed", card, card, edit("3 kg", "4 kg"), edit("3 kg", "4 kg"), false},
		{"only we changed", card, edit("3 kg", "4 kg"), card, edit("3 kg", "4 kg"), false},
		{"both changed the same", card, edit("3 kg", "4 kg"), edit("3 kg", "4 kg"), edit("3 kg", "4 kg"), false},
		{"changes far apart", card, edit("3 kg", "4 kg"), edit("Simmer.", "Simmer for 5 h."),
			strings.Replace(edit("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), false},
		{"we deleted a line, they changed another", card, edit("- 500 g onions\n", ""), edit("Simmer.", "Simmer for 5 h."),
			strings.Replace(edit("- 500 g onions\n", ""), "Simmer.", "Simmer for 5 h.", 1), false},
		{"the same line, two ways", card, edit("3 kg", "4 kg"), edit("3 kg", "2 kg"),
			edit("- 3 kg bones\n", joined(markFirst, "- 4 kg bones", markSecond, "- 2 kg bones", markEnd)), true},
		{"neighbouring lines may belong together", card, edit("3 kg", "4 kg"), edit("500 g", "600 g"),
			edit("- 3 kg bones\n- 500 g onions\n", joined(markFirst, "- 4 kg bones", "- 500 g onions", markSecond, "- 3 kg bones", "- 600 g onions", markEnd)), true},
		{"we deleted what they changed", card, edit("- 500 g onions\n", ""), edit("500 g", "600 g"),
			edit("- 500 g onions\n", joined(markFirst, markSecond, "- 600 g onions", markEnd)), true},
		{"one line of two differs", "a\n", "x\ny\n", "x\nz\n", joined("x", markFirst, "y", markSecond, "z", markEnd), true},
		{"both wrote a new file", "", "a\nb\n", "a\nc\n", joined("a", markFirst, "b", markSecond, "c", markEnd), true},
		{"both wrote the same and one wrote more", card, edit("3 kg bones", "4 kg bones"), edit("3 kg bones", "4 kg bones\n- 1 pig's foot"), edit("3 kg bones", "4 kg bones\n- 1 pig's foot"), false},
		{"one wrote more, the other deleted", "a\nb\n", "x\n", "x\nb\n", joined("x", markFirst, markSecond, "b", markEnd), true},
		{"the last line has no line end", "a\nb", "a\nb\nc", "z\nb", "z\nb\nc", false},
		{"no line end before a mark", "a", "b", "c", joined(markFirst, "b", markSecond, "c", markEnd), true},
		{"other line ends are no change", "a\r\nb\r\nc\r\n", "a\r\nb\r\nc\r\n", "a\nb\nd\n", "a\r\nb\r\nd\n", false},
		{"marks take the line ends of the text", "a\r\nb\r\n", "a\r\nc\r\n", "a\nd\n",
			"a\r\n" + markFirst + "\r\nc\r\n" + markSecond + "\r\nd\n" + markEnd + "\r\n", true},
		{"one side deleted everything", card, "", card, "", false},
		{"three empty texts", "", "", "", "", false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := Lines(&tt.base, tt.ours, tt.theirs)
			assert.Equal(t, tt.want, got)
			assert.Equal(t, tt.clash, Marked(got))
		})
	}
}

// An edit can arrive again long after it was merged, from a phone that sends all
// it has. That must not make a clash inside the clash.
func TestRepeatedEditChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 8).Draw(t, "lines")
		base := make([]string, n)
		for i := range base {
			base[i] = fmt.Sprintf("line %d", i)
		}
		change := func(who string) string {
			text := slices.Clone(base)
			i := rapid.IntRange(0, n-1).Draw(t, who)
			text[i] = who + " " + text[i]
			return joined(text...)
		}
		b, ours, theirs := joined(base...), change("we"), change("they")
		merged := Lines(&b, ours, theirs)
		for _, again := range []string{b, ours, theirs, merged} {
			assert.Equal(t, merged, Lines(&b, merged, again))
			assert.Equal(t, merged, Lines(&b, again, merged))
		}
		if Marked(merged) { // else lines of the base are gone, and only the base tells that they should be
			assert.Equal(t, merged, Lines(nil, merged, theirs))
			assert.Equal(t, merged, Lines(nil, ours, merged))
		}
	})
}

func TestHolds(t *testing.T) {
	for _, tt := range []struct {
		all, some string
		want      bool
	}{
		{"a\nb\n", "a\n", true}, {"a\n", "a\nb\n", false}, {"b\r\na", "a\nb\n", true}, {"a\n", "\n  \na", true}, {"a\nb\n", "a\na\n", false}, {"", "", true},
		{"a\nb\n", joined(markFirst, "a", markSecond, "b", markEnd), true},
	} {
		assert.Equal(t, tt.want, Holds(tt.all, tt.some), "%q in %q", tt.some, tt.all)
	}
}

func TestAllLinesStayWithoutABase(t *testing.T) {
	got := Lines(nil, "a\nb\nc\ne\n", "a\nc\nd\ne\nf\n")
	assert.Equal(t, "a\nb\nc\nd\ne\nf\n", got)
	assert.Equal(t, joined("a", markFirst, "b", markSecond, "x", markEnd, "c"), Lines(nil, "a\nb\nc\n", "a\nx\nc\n"))
}

// text draws a text of few different lines, so that many are equal.
func text(t *rapid.T, label string) string {
	ls := rapid.SliceOfN(rapid.SampledFrom([]string{"", "- salt", "- salt", "1. Stir.", "2. Rest.", "## Method", "ä"}), 0, 12).Draw(t, label)
	return strings.Join(ls, rapid.SampledFrom([]string{"\n", "\n", "\r\n"}).Draw(t, label+" ends"))
}

func count(text string) map[string]int {
	n := map[string]int{}
	for _, l := range split(text) {
		n[bare(l)]++
	}
	return n
}

func TestAddedLinesStay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := text(t, "base"), text(t, "ours"), text(t, "theirs")
		got := Lines(&base, ours, theirs)
		assert.Equal(t, ours, Lines(&base, ours, base), "an unchanged side adds nothing")
		assert.True(t, same(split(theirs), split(Lines(&base, base, theirs))), "an unchanged side adds nothing")
		assert.Equal(t, ours, Lines(&base, ours, ours), "the same edit on both sides is one edit")
		assert.Equal(t, ours, Lines(nil, ours, ours))
		assert.Equal(t, Marked(Lines(&base, theirs, ours)), Marked(got), "whether texts clash does not depend on their order")

		b, o, th := count(base), count(ours), count(theirs)
		for _, g := range []map[string]int{count(got), count(Lines(nil, ours, theirs))} {
			for l := range th {
				assert.GreaterOrEqual(t, g[l], th[l]-b[l], "theirs added %q", l)
			}
			for l := range o {
				assert.GreaterOrEqual(t, g[l], o[l]-b[l], "ours added %q", l)
				assert.GreaterOrEqual(t, g[l], min(b[l], o[l], th[l])-lost(base, ours, theirs, l), "neither deleted %q", l)
			}
		}
		all := count(Lines(nil, ours, theirs))
		for _, side := range []map[string]int{o, th} {
			for l, n := range side {
				assert.GreaterOrEqual(t, all[l], n, "without a base %q of either side stays", l)
			}
		}
	})
}

// lost returns how many copies of a line may go although both sides have as many
// as the base: a moved line is one deleted here and one added there.
func lost(base, ours, theirs, l string) int {
	kept := func(x string) int {
		n := 0
		for i, at := range match(split(base), split(x)) {
			if at >= 0 && bare(split(base)[i]) == l {
				n++
			}
		}
		return n
	}
	b := count(base)[l]
	return 2*b - kept(ours) - kept(theirs)
}

// TestNoWrittenLineIsLost uses lines that all differ, so that each can be followed.
func TestNoWrittenLineIsLost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var base []string
		for i := range rapid.IntRange(0, 30).Draw(t, "lines") {
			base = append(base, fmt.Sprintf("line %d", i))
		}
		type side struct {
			text    []string
			added   []string
			removed map[string]bool
		}
		edit := func(who string) side {
			s := side{removed: map[string]bool{}}
			write := func(i int) {
				for n := range rapid.SampledFrom([]int{0, 0, 0, 0, 1, 2}).Draw(t, who+" adds") {
					l := fmt.Sprintf("%s %d %d", who, i, n)
					s.text, s.added = append(s.text, l), append(s.added, l)
				}
			}
			for i, l := range base {
				write(i)
				if rapid.SampledFrom([]bool{false, false, false, true}).Draw(t, who+" deletes") {
					s.removed[l] = true
				} else {
					s.text = append(s.text, l)
				}
			}
			write(len(base))
			return s
		}
		ours, theirs := edit("we"), edit("they")
		b := strings.Join(base, "\n")
		got := Lines(&b, strings.Join(ours.text, "\n"), strings.Join(theirs.text, "\n"))
		var have []string
		for _, l := range split(got) {
			have = append(have, bare(l))
		}
		for _, s := range []side{ours, theirs} {
			at := -1
			for _, l := range s.added {
				i := slices.Index(have, l)
				require.Greater(t, i, at, "%q must be there, in its order", l)
				at = i
			}
		}
		for _, l := range base {
			if !ours.removed[l] && !theirs.removed[l] {
				assert.Contains(t, have, l, "neither side deleted it")
			}
			if ours.removed[l] && theirs.removed[l] {
				assert.NotContains(t, have, l, "both sides deleted it")
			}
		}
		if !Marked(got) {
			for _, l := range base {
				if ours.removed[l] || theirs.removed[l] {
					assert.NotContains(t, have, l, "one side deleted it and the other left it alone")
				}
			}
		}
	})
}

func TestSeparateEditsDoNotClash(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 40).Draw(t, "lines")
		base := make([]string, n)
		for i := range base {
			base[i] = fmt.Sprintf("line %d", i)
		}
		ours, theirs, want := slices.Clone(base), slices.Clone(base), slices.Clone(base)
		cut := rapid.IntRange(1, n-2).Draw(t, "untouched line between")
		for i := range rapid.IntRange(0, cut-1).Draw(t, "ours") {
			ours[i] += " ours"
			want[i] = ours[i]
		}
		for i := range rapid.IntRange(0, n-cut-1).Draw(t, "theirs") {
			theirs[n-1-i] += " theirs"
			want[n-1-i] = theirs[n-1-i]
		}
		b := joined(base...)
		assert.Equal(t, joined(want...), Lines(&b, joined(ours...), joined(theirs...)))
		assert.Equal(t, joined(want...), Lines(&b, joined(theirs...), joined(ours...)))
	})
}

func TestMatchPairsEqualLinesInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := split(text(t, "a")), split(text(t, "b"))
		last := -1
		for i, at := range match(a, b) {
			if at >= 0 {
				require.Equal(t, bare(a[i]), bare(b[at]))
				require.Greater(t, at, last)
				last = at
			}
		}
	})
}

func TestMatchGivesUpOnHugeTables(t *testing.T) {
	var a, b []string
	for i := range 20_000 { // no line is unique, and no two at one place are equal
		a = append(a, fmt.Sprint(i%50))
		b = append(b, fmt.Sprint((i*7+3)%50))
	}
	ours, theirs := strings.Join(a, "\n"), strings.Join(b, "\n")
	base := ""
	assert.True(t, Marked(Lines(&base, ours, theirs)))
}

func FuzzLines(f *testing.F) {
	f.Add("a\nb\nc\n", "a\nx\nc\n", "a\nb\ny\n")
	f.Add("", "a", "b\r\n")
	f.Add("x", "\r", "\r\r\n\nb\r\n") // a stray carriage return is part of its line
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		got := count(Lines(nil, ours, theirs))
		for _, side := range []string{ours, theirs} {
			for l, n := range count(side) {
				if got[l] < n {
					t.Fatalf("%q is there %d times, and %d times in the merge", l, n, got[l])
				}
			}
		}
		merged := Lines(&base, ours, theirs)
		b, g := count(base), count(merged)
		for _, side := range []string{ours, theirs} {
			for l, n := range count(side) {
				if g[l] < n-b[l] {
					t.Fatalf("%q was added %d times, and is %d times in the merge", l, n-b[l], g[l])
				}
			}
		}
	})
}
