package hub

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

func TestMerge(t *testing.T) {
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
		{"nobody changed anything", card, card, card, card, false},
		{"only they changed", card, card, edit("3 kg", "4 kg"), edit("3 kg", "4 kg"), false},
		{"only we changed", card, edit("3 kg", "4 kg"), card, edit("3 kg", "4 kg"), false},
		{"both the same", card, edit("3 kg", "4 kg"), edit("3 kg", "4 kg"), edit("3 kg", "4 kg"), false},
		{"far apart", card, edit("3 kg", "4 kg"), edit("Simmer.", "Simmer for 5 h."),
			strings.Replace(edit("3 kg", "4 kg"), "Simmer.", "Simmer for 5 h.", 1), false},
		{"we took a line out, they changed another", card, edit("- 500 g onions\n", ""), edit("Simmer.", "Simmer for 5 h."),
			strings.Replace(edit("- 500 g onions\n", ""), "Simmer.", "Simmer for 5 h.", 1), false},
		{"the same line, two ways", card, edit("3 kg", "4 kg"), edit("3 kg", "2 kg"),
			edit("- 3 kg bones\n", joined(markFirst, "- 4 kg bones", markSecond, "- 2 kg bones", markEnd)), true},
		{"neighbours: they may belong together", card, edit("3 kg", "4 kg"), edit("500 g", "600 g"),
			edit("- 3 kg bones\n- 500 g onions\n", joined(markFirst, "- 4 kg bones", "- 500 g onions", markSecond, "- 3 kg bones", "- 600 g onions", markEnd)), true},
		{"we took out what they changed", card, edit("- 500 g onions\n", ""), edit("500 g", "600 g"),
			edit("- 500 g onions\n", joined(markFirst, markSecond, "- 600 g onions", markEnd)), true},
		{"one line of two differs", "a\n", "x\ny\n", "x\nz\n", joined("x", markFirst, "y", markSecond, "z", markEnd), true},
		{"both wrote a new file", "", "a\nb\n", "a\nc\n", joined("a", markFirst, "b", markSecond, "c", markEnd), true},
		{"both wrote the same and one went on", card, edit("3 kg bones", "4 kg bones"), edit("3 kg bones", "4 kg bones\n- 1 pig's foot"), edit("3 kg bones", "4 kg bones\n- 1 pig's foot"), false},
		{"one went on, the other took out", "a\nb\n", "x\n", "x\nb\n", joined("x", markFirst, markSecond, "b", markEnd), true},
		{"no end of the last line", "a\nb", "a\nb\nc", "z\nb", "z\nb\nc", false},
		{"no end before a mark", "a", "b", "c", joined(markFirst, "b", markSecond, "c", markEnd), true},
		{"their text field writes other line ends", "a\r\nb\r\nc\r\n", "a\r\nb\r\nc\r\n", "a\nb\nd\n", "a\r\nb\r\nd\n", false},
		{"marks end as the card's lines do", "a\r\nb\r\n", "a\r\nc\r\n", "a\nd\n",
			"a\r\n" + markFirst + "\r\nc\r\n" + markSecond + "\r\nd\n" + markEnd + "\r\n", true},
		{"all gone on one side", card, "", card, "", false},
		{"nothing at all", "", "", "", "", false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := Merge(&tt.base, tt.ours, tt.theirs)
			assert.Equal(t, tt.want, got)
			assert.Equal(t, tt.clash, Marked(got))
		})
	}
}

// An edit can come again long after it was merged, from a phone that hands back
// all it knows. That must not make a clash within the clash.
func TestMergingAgainWhatIsMergedChangesNothing(t *testing.T) {
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
		merged := Merge(&b, ours, theirs)
		for _, again := range []string{b, ours, theirs, merged} {
			assert.Equal(t, merged, Merge(&b, merged, again))
			assert.Equal(t, merged, Merge(&b, again, merged))
		}
		if Marked(merged) { // else the lines both came from are gone, and only a base tells that they should be
			assert.Equal(t, merged, Merge(nil, merged, theirs))
			assert.Equal(t, merged, Merge(nil, ours, merged))
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
		assert.Equal(t, tt.want, holds(tt.all, tt.some), "%q in %q", tt.some, tt.all)
	}
}

func TestMergeWithoutABaseKeepsAllLines(t *testing.T) {
	got := Merge(nil, "a\nb\nc\ne\n", "a\nc\nd\ne\nf\n")
	assert.Equal(t, "a\nb\nc\nd\ne\nf\n", got)
	assert.Equal(t, joined("a", markFirst, "b", markSecond, "x", markEnd, "c"), Merge(nil, "a\nb\nc\n", "a\nx\nc\n"))
}

// text draws a text of a few different lines, so that equal ones abound.
func text(t *rapid.T, label string) string {
	ls := rapid.SliceOfN(rapid.SampledFrom([]string{"", "- salt", "- salt", "1. Stir.", "2. Rest.", "## Method", "ä"}), 0, 12).Draw(t, label)
	return strings.Join(ls, rapid.SampledFrom([]string{"\n", "\n", "\r\n"}).Draw(t, label+" ends"))
}

func count(text string) map[string]int {
	n := map[string]int{}
	for _, l := range lines(text) {
		n[bare(l)]++
	}
	return n
}

func TestMergePropertiesOfAnyTexts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base, ours, theirs := text(t, "base"), text(t, "ours"), text(t, "theirs")
		got := Merge(&base, ours, theirs)
		assert.Equal(t, ours, Merge(&base, ours, base), "an unchanged side adds nothing")
		assert.True(t, same(lines(theirs), lines(Merge(&base, base, theirs))), "an unchanged side adds nothing")
		assert.Equal(t, ours, Merge(&base, ours, ours), "the same edit twice is one edit")
		assert.Equal(t, ours, Merge(nil, ours, ours))
		assert.Equal(t, Marked(Merge(&base, theirs, ours)), Marked(got), "a clash is one from either side")

		b, o, th := count(base), count(ours), count(theirs)
		for _, g := range []map[string]int{count(got), count(Merge(nil, ours, theirs))} {
			for l := range th {
				assert.GreaterOrEqual(t, g[l], th[l]-b[l], "what they added: %q", l)
			}
			for l := range o {
				assert.GreaterOrEqual(t, g[l], o[l]-b[l], "what we added: %q", l)
				assert.GreaterOrEqual(t, g[l], min(b[l], o[l], th[l])-lost(base, ours, theirs, l), "what nobody took out: %q", l)
			}
		}
		all := count(Merge(nil, ours, theirs))
		for _, side := range []map[string]int{o, th} {
			for l, n := range side {
				assert.GreaterOrEqual(t, all[l], n, "without a base every line of either side stays: %q", l)
			}
		}
	})
}

// lost is how many of a line may go although both sides have as many as the
// base: it was moved, which is a line taken out here and one added there.
func lost(base, ours, theirs, l string) int {
	kept := func(x string) int {
		n := 0
		for i, at := range match(lines(base), lines(x)) {
			if at >= 0 && bare(lines(base)[i]) == l {
				n++
			}
		}
		return n
	}
	b := count(base)[l]
	return 2*b - kept(ours) - kept(theirs)
}

// Edits whose lines are all different can be followed exactly.
func TestMergeLosesNoLineThatAnybodyWrote(t *testing.T) {
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
				if rapid.SampledFrom([]bool{false, false, false, true}).Draw(t, who+" takes out") {
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
		got := Merge(&b, strings.Join(ours.text, "\n"), strings.Join(theirs.text, "\n"))
		var have []string
		for _, l := range lines(got) {
			have = append(have, bare(l))
		}
		for _, s := range []side{ours, theirs} {
			at := -1
			for _, l := range s.added {
				i := slices.Index(have, l)
				require.Greater(t, i, at, "%q is there, once, in its order", l)
				at = i
			}
		}
		for _, l := range base {
			if !ours.removed[l] && !theirs.removed[l] {
				assert.Contains(t, have, l, "nobody took it out")
			}
			if ours.removed[l] && theirs.removed[l] {
				assert.NotContains(t, have, l, "both took it out")
			}
		}
		if !Marked(got) {
			for _, l := range base {
				if ours.removed[l] || theirs.removed[l] {
					assert.NotContains(t, have, l, "one side took it out and the other left it alone")
				}
			}
		}
	})
}

func TestDisjointEditsMergeWithoutAClash(t *testing.T) {
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
		assert.Equal(t, joined(want...), Merge(&b, joined(ours...), joined(theirs...)))
		assert.Equal(t, joined(want...), Merge(&b, joined(theirs...), joined(ours...)))
	})
}

func TestMatchPairsEqualLinesInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := lines(text(t, "a")), lines(text(t, "b"))
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

func TestMatchOfHostileTextsIsBounded(t *testing.T) {
	var a, b []string
	for i := range MaxLines { // no line is unique, nothing is equal at the same place
		a = append(a, fmt.Sprint(i%50))
		b = append(b, fmt.Sprint((i*7+3)%50))
	}
	ours, theirs := strings.Join(a, "\n"), strings.Join(b, "\n")
	base := ""
	assert.True(t, Marked(Merge(&base, ours, theirs)))
}

func FuzzMerge(f *testing.F) {
	f.Add("a\nb\nc\n", "a\nx\nc\n", "a\nb\ny\n")
	f.Add("", "a", "b\r\n")
	f.Add("x", "\r", "\r\r\n\nb\r\n") // a stray carriage return is part of its line
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		got := count(Merge(nil, ours, theirs))
		for _, side := range []string{ours, theirs} {
			for l, n := range count(side) {
				if got[l] < n {
					t.Fatalf("%q is there %d times, and %d times in the merge", l, n, got[l])
				}
			}
		}
		merged := Merge(&base, ours, theirs)
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
