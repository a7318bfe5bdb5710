package library

import (
	"runtime"
	"strconv"
	"strings"
	"testing"

	"hobside/internal/document"
)

// Bounds of what compiling and rendering one file may allocate. The steepest
// that plain Markdown needs is about 500 bytes for each byte of a row of "[".
const (
	allocatedAtMost = 2 << 20
	allocatedPer    = 1500
)

// beginnings lead the parsers to each of the places where a file is read.
var beginnings = []string{
	"",
	"---\n",
	"---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n",
	"---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n- 1 kg a\n\n## Method\n\n",
	"---\nmakes: 1 kg\n---\n\n# A\n\n## Saves\n\n",
	"---\ncovers: 2\n---\n\n# A\n\n## B\n\n",
	"---\ncovers: 2\n---\n\n# A\n\n## Guests\n\n",
	"---\ncooks: 2\n---\n\n# A\n\n## Equipment\n\n",
	"---\ncooks: 2\n---\n\n# A\n\n## Hours\n\n",
	"---\ncooks: 2\n---\n\n# A\n\n## Prices\n\n",
}

// allocated fails when compiling and rendering a file allocates more than its
// length allows.
func allocated(t *testing.T, text string) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	Compile("a.md", text)
	document.HTML([]byte(text))
	runtime.ReadMemStats(&after)
	if got, most := after.TotalAlloc-before.TotalAlloc, uint64(allocatedAtMost+allocatedPer*len(text)); got > most {
		t.Fatalf("%d bytes of text: %d bytes allocated, %d for each", len(text), got, got/uint64(len(text)))
	}
}

// TestMemoryOfLargeFiles compiles files of 200 kB. What the parsers do must not
// grow with the square of what a file has of anything.
func TestMemoryOfLargeFiles(t *testing.T) {
	const size = 100_000
	const card = "---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n- 1 kg a\n\n"
	fill := func(line string) string { // each with its number in place of "@"
		var b strings.Builder
		for i := 0; b.Len() < size; i++ {
			b.WriteString(strings.ReplaceAll(line, "@", strconv.Itoa(i)))
		}
		return b.String()
	}
	for name, text := range map[string]string{
		"items and steps":        "---\nmakes: 1 kg\n---\n\n# A\n\n## Formula\n\n" + fill("- 1 g i@z\n") + "\n## Method\n\n" + fill("1. **i@z**\n"),
		"bold words of no item":  card + "## Method\n\n1. " + fill("**b@z** ") + "\n",
		"ways and parts":         card + "## Method\n\n" + fill("### Way: a\n1. b\n") + fill("1. **1 g a**\n"),
		"by-products of no line": card + "## Method\n\n1. a\n   - saves: " + fill("q@, ") + "\n\n## Saves\n\n" + fill("- s@: 1 g\n"),
		"reasons":                "---\nmakes: 1 kg\nwithout: " + fill("a (b), ") + fill("a (b), ") + "\n---\n",
		"notes":                  card + fill("# a\nx\n## Saves\n") + fill("# a\nx\n## Saves\n"),
		"steps that wait":        card + "## Method\n\n" + fill("1. a\n   - after: 99\n") + fill("1. a\n   - after: 99\n"),
		"equipment":              "---\ncooks: 1\n---\n\n# A\n\n## Equipment\n\n" + fill("- e@\n") + fill("- f@\n"),
		"a table":                card + "|" + fill("a|") + "\n|" + strings.Repeat("-|", size/2) + "\n" + fill("b\n"),
	} {
		t.Run(name, func(t *testing.T) { allocated(t, text) })
	}
}

// FuzzMemory compiles files of two pieces of text, each repeated, below one of
// the beginnings. What is allocated stays below a constant and a factor of the
// file's length: no short file may take a phone's memory.
func FuzzMemory(f *testing.F) {
	for _, pieces := range [][2]string{
		{"a|", "\n"}, {"|a", "\nb"}, {"[", ""}, {"- \n", ""}, {"- 1 kg a\n", "1. **a**\n"}, {"- 1 kg ab\n", "\n## Method\n\n1. **b**\n"},
		{"### Way: a\n\n1. **1 g a**\n\n", ""}, {"### Way: a\n\n1. b\n\n", "1. **1 g a**\n"}, {"### Way: a\n", "1. **1 g a**\n"},
		{"1. a\n   - after: 1\n   - saves: b\n", ""}, {"- a: 1 g, 1 d chilled\n", "- b: 1 g\n"}, {"1 h–", "1 h"}, {"(", ")"}, {"&amp;", "\\*"},
		{"- [X](x.md): 1 g per cover, for no fish\n", "\n## Guests\n- 1 cover: no fish, no milk\n"}, {"- oven: 1, 2 shelves\n", "a, "}, {"08:00–09:00,", ""},
		{"makes: 1 kg\n", "keeps: 1 d chilled, "}, {">", "- "}, {"a: b\n", "# c\n"}, {"*a", "**b"}, {"`a\\|b`|", "\n"},
	} {
		for i := range beginnings {
			f.Add(uint8(i), pieces[0], pieces[1])
		}
	}
	f.Fuzz(func(t *testing.T, beginning uint8, a, b string) {
		const most = 4 << 10 // bytes of each piece, repeated
		text := beginnings[int(beginning)%len(beginnings)]
		for _, piece := range []string{a, b} {
			if piece != "" {
				text += strings.Repeat(piece, 1+most/len(piece))
			}
		}
		if strings.HasPrefix(a, "a|") || strings.HasPrefix(a, "|a") { // the line of dashes that makes a table of it
			text = strings.Replace(text, "\n"+b, "\n"+strings.Repeat("-|", strings.Count(text, "|"))+"\n"+b, 1)
		}
		allocated(t, text)
	})
}
