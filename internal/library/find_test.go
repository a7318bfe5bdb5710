package library

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/text/unicode/norm"
	"pgregory.net/rapid"
)

const (
	sorbet = "---\nmakes: 400 g\n---\n# Crème sorbet\n\n## Items\n\n- 300 g rhubarb\n- 100 g sugar\n\n## Steps\n\n1. Blend the rhubarb with the sugar.\n"
	dough  = "---\nmakes: 900 g\n---\n# Dough, overnight\n\n## Items\n\n- 600 g strong wheat flour\n- 300 g water\n\n## Steps\n\n1. Mix the strong wheat flour with the water.\n"
)

// sources compiles files into a set.
func sources(files ...Source) Set {
	s := Set{}
	for _, f := range files {
		s[f.Name] = Compile(f.Name, f.Text)
	}
	return s
}

func TestFind(t *testing.T) {
	x := NewIndex(sources(Source{"sorbet.md", sorbet}, Source{"overnight-dough.md", dough}, Source{"nightcap.md", "# Tonight’s nightcap\n"}, Source{"rose-water.md", "# Rose water\n"}))
	for _, c := range []struct{ words, want string }{
		{"", "sorbet.md overnight-dough.md rose-water.md nightcap.md"}, // all, by title
		{"creme", "sorbet.md"},
		{"CRÈME", "sorbet.md"},
		{"cre\u0300me", "sorbet.md"}, // the accent as a character of its own
		{"sorbet rhu", "sorbet.md (rhubarb)"},
		{"flour", "overnight-dough.md (strong wheat flour)"},
		{"flour water", "overnight-dough.md (strong wheat flour)"},
		{"night", "nightcap.md overnight-dough.md"},           // beginning a word comes first
		{"overnight-dough", "overnight-dough.md"},             // its file name
		{"water", "rose-water.md overnight-dough.md (water)"}, // a title before what goes in
		{"flour rhubarb", ""},
		{"nothing such", ""},
	} {
		var got []string
		hits, total := x.Find(c.words, 0)
		for _, h := range hits {
			name := h.File.Name
			if h.Item != "" {
				name += " (" + h.Item + ")"
			}
			got = append(got, name)
		}
		assert.Equal(t, c.want, strings.Join(got, " "), "%q", c.words)
		assert.Equal(t, len(got), total, "%q", c.words)
	}
	hits, total := x.Find("", 1)
	assert.Equal(t, 4, total, "all are counted")
	require.Len(t, hits, 1, "no more than asked for")
	assert.Equal(t, "sorbet.md", hits[0].File.Name)
}

func folded(s string) string { return string(fold(nil, s)) }

// TestFoldMatchesUnicodeDecomposition holds the table of letters to Unicode's canonical
// decomposition, by golang.org/x/text/unicode/norm.
func TestFoldMatchesUnicodeDecomposition(t *testing.T) {
	assert.Len(t, plain, 0x180-0xc0)
	for r := rune(0xc0); r <= 0x17f; r++ {
		apart := []rune(norm.NFD.String(string(r)))
		if len(apart) < 2 {
			continue
		}
		assert.Equal(t, string(unicode.ToLower(apart[0])), folded(string(r)), "%q", r)
		assert.Equal(t, folded(string(r)), folded(string(apart)), "%q, composed or not", r)
	}
}

func TestAnyPartOfATitleFindsItsCard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		title := rapid.StringMatching(`[A-Zäöéñ][a-zåøçß]{2,8}( [a-zü]{1,6}){0,3}`).Draw(t, "title")
		x := NewIndex(sources(Source{"a.md", "# " + title + "\n"}, Source{"b.md", dough}))
		runes := []rune(title)
		from := rapid.IntRange(0, len(runes)-1).Draw(t, "from")
		to := rapid.IntRange(from+1, len(runes)).Draw(t, "to")
		hits, _ := x.Find(strings.ToUpper(string(runes[from:to])), 0)
		assert.True(t, slices.ContainsFunc(hits, func(h Hit) bool { return h.File.Name == "a.md" }), "%v", hits)
	})
}

// BenchmarkFind looks through ten thousand cards of eight items: for a word of
// a few titles, for an item all of them have, and for nothing there.
func BenchmarkFind(b *testing.B) {
	set := Set{}
	for i := range 10_000 {
		text := fmt.Sprintf("# Card %d of the house\n\n## Items\n\n", i)
		for j := range 8 {
			text += fmt.Sprintf("- %d g ingredient number %d\n", 100+j, (i+j*j)%997)
		}
		name := fmt.Sprintf("card-%d.md", i)
		set[name] = Compile(name, text)
	}
	x := NewIndex(set)
	for _, words := range []string{"card 77", "ingredient", "nowhere"} {
		b.Run(strings.ReplaceAll(words, " ", "-"), func(b *testing.B) {
			for b.Loop() {
				x.Find(words, 60)
			}
		})
	}
}
