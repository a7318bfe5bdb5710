package card

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// mostFuzzed is the size of the largest text that is fuzzed, in bytes. Larger ones
// are slow and show nothing that small ones do not.
const mostFuzzed = 4 << 10

// seeds returns the real cards, the grammar's examples and the cards with
// mistakes.
func seeds(f *testing.F) [][]byte {
	f.Helper()
	var out [][]byte
	for _, pattern := range []string{"../../content/cards/*.md", "testdata/html/*.md", "testdata/problems/*.txt"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		for _, file := range files {
			b, err := os.ReadFile(file)
			require.NoError(f, err)
			out = append(out, b)
		}
	}
	require.Greater(f, len(out), 40)
	for _, ex := range readmeExamples(f) {
		out = append(out, []byte(ex.text))
	}
	for _, s := range []string{"", "---", "---\nmakes: 1\xff kg\n---\n", "1. **", "- 0", "## Saves\n- :\n", "|Item|\n|-|\n||\n", "### Way:\n", "- 2 (optional)\n"} {
		out = append(out, []byte(s))
	}
	return out
}

// mark is a byte order mark.
var mark = []byte("\uFEFF")

// FuzzParse compiles any bytes. See sound for what must hold of the card. A byte
// order mark changes no problem.
func FuzzParse(f *testing.F) {
	for _, src := range seeds(f) {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		kept := bytes.Clone(src)
		c, problems := Parse("dir/card.md", src)
		sound(t, c, problems, kept)
		if bytes.HasPrefix(src, mark) || len(src)+len(mark) > document.MaxBytes {
			return
		}
		_, again := Parse("dir/card.md", append(bytes.Clone(mark), src...))
		require.Equal(t, lines(problems), lines(again), "with a byte order mark")
	})
}

// FuzzHTML shows any bytes as a card, and as Markdown alone: nothing the author
// wrote may reach the page as mark-up of its own or as an address that runs. The
// seeds are the sections of the cards and not the whole of them: the fuzzer runs
// a hundred times as often on them.
func FuzzHTML(f *testing.F) {
	for _, src := range seeds(f) {
		for i, section := range strings.Split(string(src), "\n## ") {
			if i > 0 {
				section = "## " + section
			}
			f.Add([]byte(section[:min(len(section), mostFuzzed/8)]))
		}
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		if len(src) > mostFuzzed {
			return
		}
		c, _ := Parse("card.md", src)
		shown := c.Scale(quantity.Int(2), 0, quantity.Prefs{})
		shown.Makes += "<i>" // text of the caller must be escaped too
		for _, page := range []string{HTML(shown), document.HTML(src)} {
			if found := foreign(page); len(found) > 0 {
				t.Fatalf("%q\nin the page\n%s", found, page)
			}
		}
	})
}
