package engine

import (
	"encoding/json"
	"fmt"
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

func found(t testing.TB, e *Engine, words string, most int) FindView {
	t.Helper()
	call, err := json.Marshal(FindCall{Words: words, Most: most})
	require.NoError(t, err)
	var v FindView
	require.NoError(t, json.Unmarshal(e.Call("find", call), &v))
	return v
}

func TestFind(t *testing.T) {
	e := New()
	_, err := e.load(LoadCall{Files: []File{{"sorbet.md", sorbet}, {"overnight-dough.md", dough}, {"nightcap.md", "# Tonight’s nightcap\n"}, {"rose-water.md", "# Rose water\n"}}})
	require.NoError(t, err)
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
		v := found(t, e, c.words, 0)
		for _, h := range v.Hits {
			if h.Has != "" {
				h.Name += " (" + h.Has + ")"
			}
			got = append(got, h.Name)
		}
		assert.Equal(t, c.want, strings.Join(got, " "), "%q", c.words)
		assert.Equal(t, len(got), v.Total, "%q", c.words)
	}
	assert.Equal(t, FindView{Total: 4, Hits: []Hit{{Name: "sorbet.md"}}}, found(t, e, "", 1), "no more than asked for, all counted")
}

func folded(s string) string { return string(fold(nil, s)) }

// TestFoldIsUnicodesOwn holds the table of letters to Unicode's canonical
// decomposition, by golang.org/x/text/unicode/norm.
func TestFoldIsUnicodesOwn(t *testing.T) {
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

// TestWhatIsNamedIsFound: any part of any title finds its card.
func TestWhatIsNamedIsFound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		title := rapid.StringMatching(`[A-Zäöéñ][a-zåøçß]{2,8}( [a-zü]{1,6}){0,3}`).Draw(t, "title")
		e := New()
		_, err := e.load(LoadCall{Files: []File{{"a.md", "# " + title + "\n"}, {"b.md", dough}}})
		require.NoError(t, err)
		runes := []rune(title)
		from := rapid.IntRange(0, len(runes)-1).Draw(t, "from")
		to := rapid.IntRange(from+1, len(runes)).Draw(t, "to")
		call, _ := json.Marshal(FindCall{Words: strings.ToUpper(string(runes[from:to]))})
		assert.Contains(t, string(e.Call("find", call)), `"a.md"`)
	})
}

// BenchmarkFind looks through ten thousand cards of eight items: for a word of
// a few titles, for an item all of them have, and for nothing there.
func BenchmarkFind(b *testing.B) {
	e := New()
	in := LoadCall{}
	for i := range 10_000 {
		text := fmt.Sprintf("# Card %d of the house\n\n## Items\n\n", i)
		for j := range 8 {
			text += fmt.Sprintf("- %d g ingredient number %d\n", 100+j, (i+j*j)%997)
		}
		in.Files = append(in.Files, File{fmt.Sprintf("card-%d.md", i), text})
	}
	if _, err := e.load(in); err != nil {
		b.Fatal(err)
	}
	for _, words := range []string{"card 77", "ingredient", "nowhere"} {
		call, _ := json.Marshal(FindCall{Words: words, Most: 60})
		b.Run(strings.ReplaceAll(words, " ", "-"), func(b *testing.B) {
			for b.Loop() {
				e.Call("find", call)
			}
		})
	}
}
