package merge

import (
	"fmt"
	"runtime"
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
		{"the same line, two ways", card, edit("3 kg", "4 kg"), edit("3 kg", "2 kg"), "", true},
		{"neighbouring lines may belong together", card, edit("3 kg", "4 kg"), edit("500 g", "600 g"), "", true},
		{"we deleted what they changed", card, edit("- 500 g onions\n", ""), edit("500 g", "600 g"), "", true},
		{"one line of two differs", "a\n", "x\ny\n", "x\nz\n", "", true},
		{"both wrote a new file", "", "a\nb\n", "a\nc\n", "", true},
		{"both wrote the same and one wrote more", card, edit("3 kg bones", "4 kg bones"), edit("3 kg bones", "4 kg bones\n- 1 pig's foot"), edit("3 kg bones", "4 kg bones\n- 1 pig's foot"), false},
		{"one wrote more, the other deleted", "a\nb\n", "x\n", "x\nb\n", "", true},
		{"the last line has no line end", "a\nb", "a\nb\nc", "z\nb", "z\nb\nc", false},
		{"a text of one line, changed two ways", "a", "b", "c", "", true},
		{"other line ends are no change", "a\r\nb\r\nc\r\n", "a\r\nb\r\nc\r\n", "a\nb\nd\n", "a\r\nb\r\nd\n", false},
		{"one side deleted everything", card, "", card, "", false},
		{"three empty texts", "", "", "", "", false},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got, ok := Lines(&tt.base, tt.ours, tt.theirs)
			assert.Equal(t, tt.want, got)
			assert.Equal(t, tt.clash, !ok)
		})
	}
}

// An edit can arrive again long after it was merged, from a phone that sends all
// it has.
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
		merged, ok := Lines(&b, ours, theirs)
		if !ok {
			return
		}
		for _, again := range []string{b, ours, theirs, merged} {
			for _, pair := range [][2]string{{merged, again}, {again, merged}} {
				got, ok := Lines(&b, pair[0], pair[1])
				assert.True(t, ok)
				assert.Equal(t, merged, got)
			}
		}
	})
}

func TestHolds(t *testing.T) {
	for _, tt := range []struct {
		all, some string
		want      bool
	}{
		{"a\nb\n", "a\n", true}, {"a\n", "a\nb\n", false}, {"b\r\na", "a\nb\n", true}, {"a\n", "\n  \na", true}, {"a\nb\n", "a\na\n", false}, {"", "", true},
	} {
		assert.Equal(t, tt.want, Holds(tt.all, tt.some), "%q in %q", tt.some, tt.all)
	}
}

func TestAllLinesStayWithoutABase(t *testing.T) {
	got, ok := Lines(nil, "a\nb\nc\ne\n", "a\nc\nd\ne\nf\n")
	assert.True(t, ok)
	assert.Equal(t, "a\nb\nc\nd\ne\nf\n", got)
	_, ok = Lines(nil, "a\nb\nc\n", "a\nx\nc\n")
	assert.False(t, ok)
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
		clean := func(base *string, ours, theirs string) string {
			got, ok := Lines(base, ours, theirs)
			assert.True(t, ok)
			return got
		}
		assert.Equal(t, ours, clean(&base, ours, base), "an unchanged side adds nothing")
		assert.True(t, same(split(theirs), split(clean(&base, base, theirs))), "an unchanged side adds nothing")
		assert.Equal(t, ours, clean(&base, ours, ours), "the same edit on both sides is one edit")
		assert.Equal(t, ours, clean(nil, ours, ours))
		got, ok := Lines(&base, ours, theirs)
		_, turned := Lines(&base, theirs, ours)
		assert.Equal(t, turned, ok, "whether texts clash does not depend on their order")

		b, o, th := count(base), count(ours), count(theirs)
		if ok {
			g := count(got)
			for l := range th {
				assert.GreaterOrEqual(t, g[l], th[l]-b[l], "theirs added %q", l)
			}
			for l := range o {
				assert.GreaterOrEqual(t, g[l], o[l]-b[l], "ours added %q", l)
				assert.GreaterOrEqual(t, g[l], min(b[l], o[l], th[l])-lost(base, ours, theirs, l), "neither deleted %q", l)
			}
		}
		if union, ok := Lines(nil, ours, theirs); ok {
			all := count(union)
			for _, side := range []map[string]int{o, th} {
				for l, n := range side {
					assert.GreaterOrEqual(t, all[l], n, "without a base %q of either side stays", l)
				}
			}
		}
	})
}

// lost returns how many copies of a line may go although both sides have as many
// as the base: a moved line is one deleted here and one added there.
func lost(base, ours, theirs, l string) int {
	kept := func(x string) int {
		n := 0
		for i, at := range match(split(base), split(x), new(maxSteps)) {
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
		got, ok := Lines(&b, strings.Join(ours.text, "\n"), strings.Join(theirs.text, "\n"))
		if !ok {
			return
		}
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
		}
		for _, l := range base {
			if ours.removed[l] || theirs.removed[l] {
				assert.NotContains(t, have, l, "one side deleted it and the other left it alone")
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
		for _, pair := range [][2]string{{joined(ours...), joined(theirs...)}, {joined(theirs...), joined(ours...)}} {
			got, ok := Lines(&b, pair[0], pair[1])
			assert.True(t, ok)
			assert.Equal(t, joined(want...), got)
		}
	})
}

func TestMatchPairsEqualLinesInOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := split(text(t, "a")), split(text(t, "b"))
		last := -1
		for i, at := range match(a, b, new(maxSteps)) {
			if at >= 0 {
				require.Equal(t, bare(a[i]), bare(b[at]))
				require.Greater(t, at, last)
				last = at
			}
		}
	})
}

// TestWorkOfAMergeIsBounded merges texts that are as large as a file may be and as hard
// to compare as could be found. It measures the memory that a merge takes, of which the
// tables of comparisons are most: four bytes a step.
func TestWorkOfAMergeIsBounded(t *testing.T) {
	const lines = 20_000
	text := func(line func(i int) string) string {
		var b strings.Builder
		for i := range lines {
			b.WriteString(line(i) + "\n")
		}
		return b.String()
	}
	cycle := func(step, of int) string { return text(func(i int) string { return fmt.Sprint(i * step % of) }) }
	gaps := func(step int) string { // 20 gaps between lines that both have once
		return text(func(i int) string {
			if i%1000 == 0 {
				return fmt.Sprint("## Part ", i)
			}
			return fmt.Sprint(i * step % 7)
		})
	}
	base := text(func(i int) string { return fmt.Sprint(i) })
	for name, tt := range map[string]struct {
		ours, theirs string
		ok           bool
	}{
		"no line is unique":             {cycle(1, 50), cycle(7, 50), false},
		"many gaps":                     {gaps(1), gaps(3), false},
		"all lines differ":              {text(func(i int) string { return fmt.Sprint("a", i) }), text(func(i int) string { return fmt.Sprint("b", i) }), false},
		"one line, each at another end": {"ours\n" + base, base + "theirs\n", true},
	} {
		t.Run(name, func(t *testing.T) {
			for _, b := range []*string{nil, &base} {
				var before, after runtime.MemStats
				runtime.ReadMemStats(&before)
				_, ok := Lines(b, tt.ours, tt.theirs)
				runtime.ReadMemStats(&after)
				assert.Equal(t, tt.ok, ok)
				assert.Less(t, after.TotalAlloc-before.TotalAlloc, uint64(4*maxSteps+24<<20), "bytes")
			}
		})
	}
}

func FuzzLines(f *testing.F) {
	f.Add("a\nb\nc\n", "a\nx\nc\n", "a\nb\ny\n")
	f.Add("", "a", "b\r\n")
	f.Add("x", "\r", "\r\r\n\nb\r\n") // a stray carriage return is part of its line
	f.Fuzz(func(t *testing.T, base, ours, theirs string) {
		if got, ok := Lines(nil, ours, theirs); ok {
			g := count(got)
			for _, side := range []string{ours, theirs} {
				for l, n := range count(side) {
					if g[l] < n {
						t.Fatalf("%q is there %d times, and %d times in the merge", l, n, g[l])
					}
				}
			}
		}
		merged, ok := Lines(&base, ours, theirs)
		if !ok {
			return
		}
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

func BenchmarkHardestMerge(b *testing.B) {
	text := func(step int) string {
		var t strings.Builder
		for i := range 1000 {
			fmt.Fprintln(&t, i*step%50)
		}
		return t.String()
	}
	ours, theirs := text(1), text(7)
	for b.Loop() {
		Lines(nil, ours, theirs)
	}
}
