package card

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"hobside/internal/document"
	"hobside/internal/quantity"
)

// seed adds the real cards, the grammar's examples and the cards with mistakes.
func seed(f *testing.F) {
	f.Helper()
	n := 0
	for _, pattern := range []string{"../../content/cards/*.md", "../../content/*.md", "testdata/html/*.md", "testdata/problems/*.txt"} {
		files, err := filepath.Glob(pattern)
		require.NoError(f, err)
		for _, file := range files {
			b, err := os.ReadFile(file)
			require.NoError(f, err)
			f.Add(b)
			n++
		}
	}
	require.Greater(f, n, 40)
	for _, ex := range readmeExamples(f) {
		f.Add([]byte(ex.text))
	}
	for _, s := range []string{"", "---", "---\nmakes: 1\xff kg\n---\n", "1. **", "- 0", "## Saves\n- :\n", "|Item|\n|-|\n||\n", "### Way:\n", "- 2 (optional)\n"} {
		f.Add([]byte(s))
	}
}

// mark is a byte order mark.
var mark = []byte("\uFEFF")

// FuzzParse compiles any bytes. See sound for what must hold of the card. A byte
// order mark is the editor's business and changes no problem.
func FuzzParse(f *testing.F) {
	seed(f)
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
// wrote may reach the page as mark-up of its own or as an address that runs.
func FuzzHTML(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		c, _ := Parse("card.md", src)
		shown := c.Scale(quantity.Int(2), 0, quantity.Prefs{})
		shown.Makes += "<i>" // the caller's words are words too
		for _, page := range []string{HTML(shown), document.HTML(src)} {
			require.Empty(t, foreign(page))
		}
	})
}
